import { isMap } from "yaml"
import { JUDGED, type Judged } from "../experiment.ts"
import { keysOf, UNTIL_FIELDS } from "../grammar.ts"
import { notAMapping, partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readName, readQuantity, readWhole } from "./setting.ts"
import { type Found, show } from "./source.ts"

/** Shots for each point when a file does not say. */
export const USUAL_SHOTS = 20_000
/** Ceiling when a file asks for a half-width alone. */
export const USUAL_CEILING = 400_000
export const FEWEST_SHOTS = 100
/** A whole number of batches of every replicate, so that rounding up to them never goes beyond. */
export const MOST_SHOTS = 2 ** 30
/** Half-widths from a hundredth of a point to twenty points. */
export const HALF_WIDTH = { dimension: "share", least: 0.0001, most: 0.2 } as const

/** When a run ends. */
export interface Stopping {
  readonly shots: number
  readonly halfWidth: number | null
  /** What the half-width is of, where it is not the save rate. */
  readonly judged?: Judged
}

/** Flags that take the place of what the file says. */
export interface StoppingFlags {
  readonly shots: Found | undefined
  readonly halfWidth: Found | undefined
  readonly halfWidthOf: Found | undefined
}

/** Reads `shots` and `until`; a flag of the same meaning wins. */
export function readStopping(
  shotsFound: Found | undefined,
  untilFound: Found | undefined,
  flags: StoppingFlags,
  problems: Problem[],
): Stopping {
  const shots = wholeOf(shotsFound, problems)
  const until = readUntil(untilFound, problems)
  const flagShots = wholeOf(flags.shots, problems)
  const flagHalfWidth = shareOf(flags.halfWidth, problems)
  if (shots !== null && until.most !== null && shots !== until.most && untilFound !== undefined) {
    const rule = `the same as shots, ${shots}, or left out`
    const facts = { key: "until.most", rule, current: String(until.most), remedy: "both are the ceiling" }
    fail(untilFound, problems, { kind: "contradiction", ...facts })
  }
  const halfWidth = flagHalfWidth ?? until.halfWidth
  const judged = readJudged(flags, halfWidth, problems) ?? until.judged
  const ceiling = flagShots ?? until.most ?? shots
  const ends = { shots: ceiling ?? (halfWidth === null ? USUAL_SHOTS : USUAL_CEILING), halfWidth }
  return judged === "difference" ? { ...ends, judged } : ends
}

/** Without two points to compare there is no difference to know. */
export function reportNothingCompared(
  found: Found | undefined,
  { judged }: Stopping,
  baselineOf: readonly number[],
  problems: Problem[],
): void {
  if (found === undefined || judged !== "difference" || baselineOf.some((base, index) => base !== index)) return
  const facts = { key: "until.of", rule: "save rate where no point has another as its baseline", current: judged }
  fail(found, problems, { kind: "contradiction", ...facts, remedy: "sweep or compare something of the goalie" })
}

interface Until {
  readonly halfWidth: number | null
  readonly judged: Judged | null
  readonly most: number | null
}

function readUntil(found: Found | undefined, problems: Problem[]): Until {
  const nothing = { halfWidth: null, judged: null, most: null }
  if (found === undefined) return nothing
  if (!isMap(found.node)) {
    problems.push(notAMapping(found, "such as until: { half-width: 0.5 %, most: 100000 }"))
    return nothing
  }
  const parts = partsOf(found, keysOf(UNTIL_FIELDS), problems)
  const halfWidth = parts.get("half-width")
  if (halfWidth === undefined) {
    const facts = { key: "until.half-width", rule: "given, such as 0.5 %", current: show(found) }
    fail(found, problems, { kind: "missing key", ...facts, remedy: "for a number of shots alone write shots:" })
  }
  const of = parts.get("of")
  return {
    halfWidth: shareOf(halfWidth, problems),
    judged: of === undefined ? null : readName(of, JUDGED, problems),
    most: wholeOf(parts.get("most"), problems),
  }
}

/** The flag that says whose half-width; without any half-width it would change nothing, without a word. */
function readJudged({ halfWidthOf }: StoppingFlags, halfWidth: number | null, problems: Problem[]): Judged | null {
  if (halfWidthOf === undefined) return null
  if (halfWidth !== null) return readName(halfWidthOf, JUDGED, problems)
  const facts = { key: halfWidthOf.key, rule: "left out where no half-width is wanted", current: show(halfWidthOf) }
  return fail(halfWidthOf, problems, { kind: "contradiction", ...facts, remedy: "give --half-width 0.5%" })
}

function wholeOf(found: Found | undefined, problems: Problem[]): number | null {
  return found === undefined ? null : readWhole(found, FEWEST_SHOTS, MOST_SHOTS, problems)
}

function shareOf(found: Found | undefined, problems: Problem[]): number | null {
  return found === undefined ? null : (readQuantity(found, HALF_WIDTH, problems)?.value ?? null)
}
