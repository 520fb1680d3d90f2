import * as partColumns from "./parts.ts"
import type { Metres, Seconds } from "./units.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { CATCH_RADIUS, ERROR_PER_SPEED, ERROR_STEADY, LAG, LONGEST_REACH, PEAK_ACCELERATION, PEAK_SPEED } = partColumns

/**
 * How well a limb stops a puck that will pass its carried part at a clearance g.
 *
 *   distance to go     d = g + R          the middle of the hand is brought onto the path; R catch radius
 *   time it takes      T = max(15/8 d / v, sqrt(10/sqrt(3) d / a))      minimum-jerk reach [FlashHogan1985]
 *   moved after tau    d s(tau / T),  s(x) = x^3 (10 - 15 x + 6 x^2)
 *   placement error    sd^2 = steady^2 + (perSpeed d / tau)^2           linear speed-accuracy trade [Schmidt1979]
 *   margin             R - (d - moved) - sd e     e: this shot's Rayleigh length, sd 1
 *
 * Zero or more stops the puck. The margin never falls as tau grows. tau is the time from the limb's first movement to
 * the puck being level with it; at tau <= 0 the limb has not moved.
 */
export function limbMargin(limbs: Float64Array, row: number, gap: Metres, tau: Seconds, error: number): Metres {
  if (tau <= 0 || gap > limbs[row + LONGEST_REACH]!) return -1
  const radius = limbs[row + CATCH_RADIUS]!
  const distance = gap + radius
  const takes = reachTime(limbs, row, distance)
  return radius - wayLeft(distance, takes, tau) - error * spread(limbs, row, distance, tau)
}

/** A trial of a limb: clearance, time since it began to move, this shot's error length; and the margin they leave. */
export const TRIAL_GAP = 0
export const TRIAL_TAU = 1
export const TRIAL_ERROR = 2
export const TRIAL_MARGIN = 3
export const TRIAL_LENGTH = 4

/** Fills TRIAL_MARGIN. The same as {@link limbMargin}, for loops: numbers given and returned one by one are boxed. */
export function tryLimb(limbs: Float64Array, row: number, trial: Float64Array): void {
  trial[3] = limbMargin(limbs, row, trial[0]!, trial[1]!, trial[2]!)
}

/** Whether the margin is zero or more: most trials fail before the placement error is asked for. */
export function limbStopsInTime(limbs: Float64Array, row: number, trial: Float64Array): boolean {
  const gap = trial[TRIAL_GAP]!
  const tau = trial[TRIAL_TAU]!
  if (tau <= 0 || gap > limbs[row + LONGEST_REACH]!) return false
  const radius = limbs[row + CATCH_RADIUS]!
  const distance = gap + radius
  const takes = reachTime(limbs, row, distance)
  const short = radius - wayLeft(distance, takes, tau)
  return short >= 0 && short - trial[TRIAL_ERROR]! * spread(limbs, row, distance, tau) >= 0
}

/** Least time for a minimum-jerk reach over this distance within the limb's peak speed and acceleration, lag left out. */
export function reachTime(limbs: Float64Array, row: number, distance: Metres): Seconds {
  const bySpeed = (PEAK_OVER_MEAN * distance) / limbs[row + PEAK_SPEED]!
  const byForce = Math.sqrt((PEAK_ACCELERATION_FACTOR * distance) / limbs[row + PEAK_ACCELERATION]!)
  return bySpeed > byForce ? bySpeed : byForce
}

/** What is left of the distance after tau. */
function wayLeft(distance: Metres, takes: Seconds, tau: Seconds): Metres {
  if (!(tau < takes)) return 0
  const x = tau / takes
  return distance * (1 - x * x * x * (10 + x * (6 * x - 15)))
}

/** Standard deviation of the placement error. */
function spread(limbs: Float64Array, row: number, distance: Metres, tau: Seconds): Metres {
  const steady = limbs[row + ERROR_STEADY]!
  const hasty = (limbs[row + ERROR_PER_SPEED]! * distance) / tau
  return Math.sqrt(steady * steady + hasty * hasty)
}

/** Peak over mean speed of a minimum-jerk reach. */
const PEAK_OVER_MEAN = 15 / 8
/** Peak acceleration of a minimum-jerk reach over distance / time². */
const PEAK_ACCELERATION_FACTOR = 10 / Math.sqrt(3)

/** A start known to this is exact enough, s; and the steps of the search, of which five or six are usual. */
const START_TOLERANCE = 1e-10
const MOST_STEPS = 60

/**
 * Latest start of the hands, s after release, with which the limb still stops a puck that is level with it at `time`
 * with clearance `gap`; -Infinity when not even a start `earliest` would do.
 */
export function latestStart(
  limbs: Float64Array,
  row: number,
  gap: Metres,
  time: Seconds,
  error: number,
  earliest: Seconds,
): Seconds {
  const last = time - limbs[row + LAG]!
  if (limbMargin(limbs, row, gap, last - earliest, error) < 0) return -Infinity
  if (gap <= 0) return last
  const radius = limbs[row + CATCH_RADIUS]!
  const steady = limbs[row + ERROR_STEADY]!
  const distance = gap + radius
  const rush = limbs[row + ERROR_PER_SPEED]! * distance
  const takes = reachTime(limbs, row, distance)

  // solve: margin(tau) = 0. Newton, kept between a time that is too short and one that does
  let short = 0
  let long = last - earliest
  let tau = takes < long ? 0.7 * takes : 0.7 * long
  for (let i = 0; i < MOST_STEPS; i++) {
    const x = tau < takes ? tau / takes : 1
    const y = 1 - x
    const hasty = rush / tau
    const sd = Math.sqrt(steady * steady + hasty * hasty)
    const margin = radius - distance * (1 - x * x * x * (10 + x * (6 * x - 15))) - error * sd
    if (margin >= 0) long = tau
    else short = tau
    const rise = (30 * distance * x * x * y * y) / takes + (error * hasty * hasty) / (sd * tau)
    let next = tau - margin / rise
    if (!(next > short && next < long)) next = 0.5 * (short + long)
    const step = next - tau
    tau = next
    if (step < START_TOLERANCE && step > -START_TOLERANCE) break
  }
  return last - tau
}
