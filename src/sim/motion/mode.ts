import type { Metres, MetresPerSecond, MetresPerSecondSquared, Seconds } from "../units.ts"

/**
 * Ways a goalie moves, in the order of the rows of a movement table. Each is a few numbers: the goalie gathers for a
 * while, gains speed evenly, keeps the top speed, brakes evenly, and is set again a little after standing still.
 */
export const MODES = ["shuffle", "T-push", "butterfly slide", "backward glide", "telescope"] as const
export type Mode = (typeof MODES)[number]

/** Rows of {@link MODES}. */
export const SHUFFLE = 0
export const T_PUSH = 1
export const BUTTERFLY_SLIDE = 2
export const BACKWARD_GLIDE = 3
export const TELESCOPE = 4

/** Columns of a mode. */
export const MODE_STRIDE = 5
/** From the decision to the first push, s: weight shifted, lead foot turned. */
export const START = 0
/** m/s² */
export const ACCELERATION = 1
/** m/s */
export const TOP_SPEED = 2
/** m/s² */
export const BRAKING = 3
/** From standing still to being set again, s. */
export const SET = 4

/**
 * Highest speed on a way of `length` that starts at speed `initial` and ends at rest. With acceleration a, braking b:
 *
 *   (p² - u²) / 2a + p² / 2b = L     p = sqrt((2 a b L + b u²) / (a + b)),  no more than the top speed
 *
 * Valid for L >= u² / 2b: a shorter way cannot end at rest.
 */
export function peakSpeed(
  acceleration: MetresPerSecondSquared,
  topSpeed: MetresPerSecond,
  braking: MetresPerSecondSquared,
  length: Metres,
  initial: MetresPerSecond,
): MetresPerSecond {
  const squared = (braking * (2 * acceleration * length + initial * initial)) / (acceleration + braking)
  return squared < topSpeed * topSpeed ? Math.sqrt(squared) : topSpeed
}

/** Time on a way of `length` from rest to rest: accelerate, cruise, brake. */
export function restToRest(
  acceleration: MetresPerSecondSquared,
  topSpeed: MetresPerSecond,
  braking: MetresPerSecondSquared,
  length: Metres,
): Seconds {
  if (length <= 0) return 0
  const peak = peakSpeed(acceleration, topSpeed, braking, length, 0)
  // the cruise starts where the acceleration ends and ends where the braking starts
  const cruise = length - 0.5 * peak * peak * (1 / acceleration + 1 / braking)
  return peak / acceleration + peak / braking + (cruise > 0 ? cruise / peak : 0)
}

/** Time from rest until a mark `length` away is passed without braking: sqrt(2 L / a), or L / V + V / 2a once at speed. */
export function restToPassing(
  acceleration: MetresPerSecondSquared,
  topSpeed: MetresPerSecond,
  length: Metres,
): Seconds {
  if (length <= 0) return 0
  const gained = (0.5 * topSpeed * topSpeed) / acceleration
  return length <= gained ? Math.sqrt((2 * length) / acceleration) : length / topSpeed + (0.5 * topSpeed) / acceleration
}

/** How far a goalie who moves at `speed` goes on before standing still: v² / 2b. */
export function stoppingDistance(braking: MetresPerSecondSquared, speed: MetresPerSecond): Metres {
  return (0.5 * speed * speed) / braking
}

/** From the decision to standing still `length` away, in the mode at `row` of `modes`, from rest. */
export function travelTime(modes: Float64Array, row: number, length: Metres): Seconds {
  if (length <= 0) return 0
  return (
    modes[row + START]! + restToRest(modes[row + ACCELERATION]!, modes[row + TOP_SPEED]!, modes[row + BRAKING]!, length)
  )
}
