import {
  CATCH_RADIUS,
  ERROR_PER_SPEED,
  ERROR_STEADY,
  LAG,
  LONGEST_REACH,
  PEAK_ACCELERATION,
  PEAK_SPEED,
} from "./parts.ts"
import type { Metres, Seconds } from "./units.ts"

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
  const radius = limbs[row + CATCH_RADIUS]!
  if (tau <= 0 || gap > limbs[row + LONGEST_REACH]!) return -1
  const distance = gap + radius
  const bySpeed = (PEAK_OVER_MEAN * distance) / limbs[row + PEAK_SPEED]!
  const byForce = Math.sqrt((PEAK_ACCELERATION_FACTOR * distance) / limbs[row + PEAK_ACCELERATION]!)
  const takes = bySpeed > byForce ? bySpeed : byForce
  let left = 0
  if (tau < takes) {
    const x = tau / takes
    left = distance * (1 - x * x * x * (10 + x * (6 * x - 15)))
  }
  const steady = limbs[row + ERROR_STEADY]!
  const hasty = (limbs[row + ERROR_PER_SPEED]! * distance) / tau
  return radius - left - error * Math.sqrt(steady * steady + hasty * hasty)
}

/** Peak over mean speed of a minimum-jerk reach. */
const PEAK_OVER_MEAN = 15 / 8
/** Peak acceleration of a minimum-jerk reach over distance / time². */
const PEAK_ACCELERATION_FACTOR = 10 / Math.sqrt(3)

/** Halvings of the search for a limb's latest start: to about a hundredth of a microsecond. */
const HALVINGS = 26

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
  const lag = limbs[row + LAG]!
  let early = earliest
  let late = time - lag
  if (limbMargin(limbs, row, gap, time - early - lag, error) < 0) return -Infinity
  for (let i = 0; i < HALVINGS; i++) {
    const middle = 0.5 * (early + late)
    if (limbMargin(limbs, row, gap, time - middle - lag, error) >= 0) early = middle
    else late = middle
  }
  return early
}
