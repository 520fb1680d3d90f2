import { isMap } from "yaml"
import { QUANTITIES } from "../../models/settings.ts"
import { latinHypercube } from "../../sim/random/latin-hypercube.ts"
import { scrambledSobol } from "../../sim/random/sobol.ts"
import { DESIGN_KINDS, type DesignKind } from "../experiment.ts"
import { DESIGN_FIELDS, keysOf } from "../grammar.ts"
import { fromSi, toSi } from "../quantity.ts"
import { seedKey } from "../seed.ts"
import { notAMapping, partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { readRanges, type WrittenRange } from "./ranges.ts"
import { readPowerOfTwo } from "./sensitivity.ts"
import { fail, readName, readWhole } from "./setting.ts"
import { type Found, show } from "./source.ts"
import { MOST_POINTS, type SweptKey } from "./sweep.ts"

/** Digits of a value in the unit of the file: no wheel is turned more finely, and tables stay readable. */
const DIGITS = 6

/** A whole design, for whoever left out a part of it: one key with a range of its own, one with its plausible range. */
const EXAMPLE = "design: { kind: sobol, points: 64, over: { goalie.depth: { from: 0 m, to: 2 m }, goalie.stature: } }"

/** Points spread over ranges: the keys change in lockstep, each with a value for every point. */
export interface DesignRead {
  readonly kind: DesignKind
  readonly points: number
  readonly axis: readonly SweptKey[]
}

/** Reads `design:`; the run's seed decides where its points lie. Null with problems when it cannot be used. */
export function readDesign(found: Found, seed: string, problems: Problem[]): DesignRead | null {
  if (!isMap(found.node)) {
    problems.push(notAMapping(found, `such as ${EXAMPLE}`))
    return null
  }
  const parts = partsOf(found, keysOf(DESIGN_FIELDS), problems)
  const missing = keysOf(DESIGN_FIELDS).filter((name) => !parts.has(name))
  for (const name of missing) {
    const facts = { key: `${found.key}.${name}`, rule: "given", current: "nothing" }
    fail(found, problems, { kind: "missing key", ...facts, remedy: `such as ${EXAMPLE}` })
  }
  const [kindFound, overFound, pointsFound] = [parts.get("kind"), parts.get("over"), parts.get("points")]
  const kind = kindFound === undefined ? null : readName(kindFound, DESIGN_KINDS, problems)
  const ranges = overFound === undefined ? null : readRanges(overFound, problems)
  const points = pointsFound === undefined ? null : readPoints(pointsFound, kind, problems)
  if (kind === null || ranges === null || points === null) return null
  return { kind, points, axis: axisOf(kind, ranges, points, seed) }
}

/** A design takes the place of what would cross it. */
export function reportCrossed(found: Found, sweep: Found | undefined, problems: Problem[]): void {
  if (sweep === undefined) return
  const facts = { key: found.key, rule: "left out where keys are swept", current: show(found) }
  const remedy = "keep one of the two"
  fail(found, problems, { kind: "contradiction", ...facts, remedy })
}

function readPoints(found: Found, kind: DesignKind | null, problems: Problem[]): number | null {
  return kind === "sobol" ? readPowerOfTwo(found, 2, MOST_POINTS, problems) : readWhole(found, 2, MOST_POINTS, problems)
}

function axisOf(kind: DesignKind, ranges: readonly WrittenRange[], points: number, seed: string): SweptKey[] {
  const spread = kind === "sobol" ? scrambledSobol : latinHypercube
  const places = spread(seedKey(seed), 0, points, ranges.length)
  return ranges.map(({ key, low, high, found, unit }, at) => {
    const values = Array.from({ length: points }, (_, i) => {
      const written = fromSi(low + places[i * ranges.length + at]! * (high - low), unit)
      return Math.min(high, Math.max(low, toSi(Number(written.toPrecision(DIGITS)), unit)))
    })
    const { dimension } = QUANTITIES[key]
    const { name, factor, zero } = unit
    return {
      found,
      swept: { kind: "quantity", key, dimension, unit: name, unitFactor: factor, unitZero: zero, values },
    }
  })
}
