import { modeKey } from "../../models/movement/movement-numbers.ts"
import { QUANTITIES, type QuantityKey } from "../../models/settings.ts"
import { type Mode, restToPassing } from "../../sim/motion/mode.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import type { Timing } from "./instruments.ts"

/** A parameter from readings with the spread that they leave, SI. */
export interface MeasuredValue {
  readonly key: QuantityKey
  readonly value: number
  readonly standardError: number
  readonly low: number
  readonly high: number
}

/** Low and high lie this many standard errors to either side. */
export const SPREAD_IN_ERRORS = 2

/** Time in which the usual goalie passes a mark in a mode, without the time to start. */
export function usualPassing(mode: Mode, distance: Metres): Seconds {
  return restToPassing(
    QUANTITIES[modeKey(mode, "acceleration")].value,
    QUANTITIES[modeKey(mode, "speed")].value,
    distance,
  )
}

/**
 * Acceleration and top speed of a mode from the time T to pass a mark. One time over one distance cannot tell the two
 * apart, so the movement keeps its usual shape and is played faster or slower: with T0 the usual time and k = T0 / T
 *
 *   V = V0 k      a = a0 k²      sd(V) = V sd(T) / T      sd(a) = 2 a sd(T) / T      (delta method)
 */
export function fromPassing(mode: Mode, distance: Metres, timing: Timing): MeasuredValue[] {
  const pace = usualPassing(mode, distance) / timing.mean
  const relative = timing.standardError / timing.mean
  const speed = modeKey(mode, "speed")
  const gain = modeKey(mode, "acceleration")
  return [
    spread(speed, QUANTITIES[speed].value * pace, relative),
    spread(gain, QUANTITIES[gain].value * pace * pace, 2 * relative),
  ]
}

/** Time of the drop as it was timed. */
export function fromDrop(timing: Timing): MeasuredValue {
  return spread("goalie.drop_time", timing.mean, timing.standardError / timing.mean)
}

/** Times to pass a mark that give values a file may hold. */
export function passingLimits(mode: Mode, distance: Metres): { readonly least: Seconds; readonly most: Seconds } {
  const speed = QUANTITIES[modeKey(mode, "speed")]
  const gain = QUANTITIES[modeKey(mode, "acceleration")]
  const usual = usualPassing(mode, distance)
  const fastest = Math.min(speed.most / speed.value, Math.sqrt(gain.most / gain.value))
  const slowest = Math.max(speed.least / speed.value, Math.sqrt(gain.least / gain.value))
  return { least: usual / fastest, most: usual / slowest }
}

/** A value with low and high from its relative standard error, kept within what a file may hold. */
function spread(key: QuantityKey, value: number, relative: number): MeasuredValue {
  const { least, most } = QUANTITIES[key]
  const standardError = value * relative
  const low = Math.max(least, value - SPREAD_IN_ERRORS * standardError)
  const high = Math.min(most, value + SPREAD_IN_ERRORS * standardError)
  return { key, value, standardError, low, high }
}
