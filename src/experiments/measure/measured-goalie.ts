import { defaultSettings, QUANTITIES } from "../../models/settings.ts"
import { fallTime } from "../../sim/motion/fall.ts"
import { formatQuantity } from "../quantity.ts"
import type { Setting } from "../read/setting.ts"
import { count } from "../wording.ts"
import type { Timing } from "./instruments.ts"
import { fromDrop, fromPassing, type MeasuredValue, SPREAD_IN_ERRORS } from "./invert.ts"
import type { Readings } from "./readings.ts"

/** One movement as it was timed. */
export interface TimedRow extends Timing {
  /** "post to post over 1.829 m". */
  readonly what: string
}

/** A value for the goalie file, and what it was read from. */
export interface MeasuredRow extends MeasuredValue {
  readonly from: string
}

/** A goalie from readings: what goes into the file, and what a coach should know about it. */
export interface MeasuredGoalie {
  readonly name: string
  readonly about: string | null
  readonly given: readonly Setting[]
  readonly timed: readonly TimedRow[]
  readonly values: readonly MeasuredRow[]
  readonly notes: readonly string[]
}

/** What the low and the high beside each value are. */
export const SPREAD_NOTE = `Low and high are ${SPREAD_IN_ERRORS} standard errors to either side, as stop-watch or video leave them; a steady lean of the hand is not in them`
const SHAPE_NOTE =
  "One time over one distance gives how fast a movement is as a whole; how acceleration and top speed share in it is kept as usual"

/** Height the knees fall from over stature: 0.405 m, the least behind published drop speeds [ButterflyDrop], at 1.82 m. */
const KNEES_OVER_STATURE = 0.405 / 1.82

/** Turns readings into the values of a goalie file. `name` stands in where the readings give none. */
export function measuredGoalie(readings: Readings, name: string): MeasuredGoalie {
  const timed: TimedRow[] = []
  const values: MeasuredRow[] = []
  for (const { timed: movement, distance, timing } of readings.movements) {
    const what = `${movement.name} over ${formatQuantity(distance, "length", "m")}`
    timed.push({ what, ...timing })
    const from = `${count(timing.n, "reading")} of ${what}`
    values.push(...fromPassing(movement.mode, distance, timing).map((value) => ({ ...value, from })))
  }
  if (readings.drop !== null) {
    const what = "drop to the knees"
    timed.push({ what, ...readings.drop })
    values.push({ ...fromDrop(readings.drop), from: `${count(readings.drop.n, "reading")} of the ${what}` })
  }
  return {
    name: readings.name ?? name,
    about: readings.about,
    given: readings.given,
    timed,
    values,
    notes: notesOf(readings, timed, values),
  }
}

function notesOf(readings: Readings, timed: readonly TimedRow[], values: readonly MeasuredRow[]): string[] {
  const notes: string[] = []
  if (values.length > 0) notes.push(SPREAD_NOTE)
  if (readings.movements.length > 0) notes.push(SHAPE_NOTE)
  for (const { what } of timed.filter(({ varies }) => varies))
    notes.push(`The readings of the ${what} differ by more than the instrument explains: the goalie varied`)
  for (const { key, value, low, high } of values) {
    const usual = QUANTITIES[key]
    if (low <= usual.high && high >= usual.low) continue
    const show = (number: number): string => formatQuantity(number, usual.dimension, usual.unit)
    notes.push(
      `${key} of ${show(value)} lies outside the plausible ${show(usual.low)} to ${show(usual.high)}, even with its spread: check distance, clock and frame rate`,
    )
  }
  const fall = readings.drop === null ? null : tooQuick(readings, readings.drop.mean)
  if (fall !== null) notes.push(fall)
  return notes
}

/** A drop cannot be quicker than the knees fall. */
function tooQuick(readings: Readings, drop: number): string | null {
  const defaults = defaultSettings().quantities
  const given = readings.given.find((setting) => setting.key === "goalie.stature")
  const stature = given?.kind === "quantity" ? given.measured.value : defaults["goalie.stature"]
  const height = KNEES_OVER_STATURE * stature
  const least = fallTime(defaults["rink.gravity"], height)
  if (drop >= least) return null
  const show = (seconds: number): string => formatQuantity(seconds, "time", "ms")
  return `A drop in ${show(drop)} is quicker than a free fall of the knees from ${formatQuantity(height, "length", "cm")}, ${show(least)}: the knees were lower before, or the first frames were missed`
}
