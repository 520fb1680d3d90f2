import { isMap } from "yaml"
import { keysOf, UNTIL_FIELDS } from "../grammar.ts"
import { notAMapping, partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readQuantity, readWhole } from "./setting.ts"
import { type Found, show } from "./source.ts"

/** Shots for each point when a file does not say. */
export const USUAL_SHOTS = 20_000
/** Ceiling when a file asks for a half-width alone. */
export const USUAL_CEILING = 400_000
export const FEWEST_SHOTS = 100
export const MOST_SHOTS = 1_000_000_000
/** Half-widths from a hundredth of a point to twenty points. */
export const HALF_WIDTH = { dimension: "share", least: 0.0001, most: 0.2 } as const

/** When a run ends. */
export interface Stopping {
  readonly shots: number
  readonly halfWidth: number | null
}

/** Flags that take the place of what the file says. */
export interface StoppingFlags {
  readonly shots: Found | undefined
  readonly halfWidth: Found | undefined
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
  const ceiling = flagShots ?? until.most ?? shots
  return { shots: ceiling ?? (halfWidth === null ? USUAL_SHOTS : USUAL_CEILING), halfWidth }
}

function readUntil(found: Found | undefined, problems: Problem[]): { halfWidth: number | null; most: number | null } {
  const nothing = { halfWidth: null, most: null }
  if (found === undefined) return nothing
  if (!isMap(found.node)) {
    problems.push(notAMapping(found))
    return nothing
  }
  const parts = partsOf(found, keysOf(UNTIL_FIELDS), problems)
  const halfWidth = parts.get("half-width")
  if (halfWidth === undefined) {
    const facts = { key: "until.half-width", rule: "given, such as 0.5 %", current: show(found) }
    fail(found, problems, { kind: "missing key", ...facts, remedy: "for a number of shots alone write shots:" })
  }
  return { halfWidth: shareOf(halfWidth, problems), most: wholeOf(parts.get("most"), problems) }
}

function wholeOf(found: Found | undefined, problems: Problem[]): number | null {
  return found === undefined ? null : readWhole(found, FEWEST_SHOTS, MOST_SHOTS, problems)
}

function shareOf(found: Found | undefined, problems: Problem[]): number | null {
  return found === undefined ? null : (readQuantity(found, HALF_WIDTH, problems)?.value ?? null)
}
