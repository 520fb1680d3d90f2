import {
  CATCH_RADIUS,
  ERROR_PER_SPEED,
  ERROR_STEADY,
  LAG,
  LONGEST_REACH,
  PEAK_ACCELERATION,
  PEAK_SPEED,
} from "../sim/part-columns.ts"
import { NUMBER } from "./tables.ts"

/** The same as in sim/limb.ts, where the laws stand; `row` is where the limb's numbers are. */
const PEAK_OVER_MEAN: f64 = 15.0 / 8.0
const PEAK_ACCELERATION_FACTOR: f64 = 10 / sqrt<f64>(3)
const START_TOLERANCE: f64 = 1e-10
const MOST_STEPS: i32 = 60

export function limbMargin(row: usize, gap: f64, tau: f64, error: f64): f64 {
  if (tau <= 0 || gap > load<f64>(row, LONGEST_REACH * NUMBER)) return -1
  const radius = load<f64>(row, CATCH_RADIUS * NUMBER)
  const distance = gap + radius
  const takes = reachTime(row, distance)
  return radius - wayLeft(distance, takes, tau) - error * spread(row, distance, tau)
}

/** Whether the margin is zero or more: most trials fail before the placement error is asked for. */
export function limbStopsInTime(row: usize, gap: f64, tau: f64, error: f64): bool {
  if (tau <= 0 || gap > load<f64>(row, LONGEST_REACH * NUMBER)) return false
  const radius = load<f64>(row, CATCH_RADIUS * NUMBER)
  const distance = gap + radius
  const takes = reachTime(row, distance)
  const left = radius - wayLeft(distance, takes, tau)
  return left >= 0 && left - error * spread(row, distance, tau) >= 0
}

// @ts-ignore: decorator
@inline
function reachTime(row: usize, distance: f64): f64 {
  const bySpeed = (PEAK_OVER_MEAN * distance) / load<f64>(row, PEAK_SPEED * NUMBER)
  const byForce = sqrt((PEAK_ACCELERATION_FACTOR * distance) / load<f64>(row, PEAK_ACCELERATION * NUMBER))
  return bySpeed > byForce ? bySpeed : byForce
}

// @ts-ignore: decorator
@inline
function wayLeft(distance: f64, takes: f64, tau: f64): f64 {
  if (!(tau < takes)) return 0
  const x = tau / takes
  return distance * (1 - x * x * x * (10 + x * (6 * x - 15)))
}

// @ts-ignore: decorator
@inline
function spread(row: usize, distance: f64, tau: f64): f64 {
  const steady = load<f64>(row, ERROR_STEADY * NUMBER)
  const hasty = (load<f64>(row, ERROR_PER_SPEED * NUMBER) * distance) / tau
  return sqrt(steady * steady + hasty * hasty)
}

/** Latest start of the hands with which the limb still stops a puck; -Infinity when not even `earliest` would do. */
export function latestStart(row: usize, gap: f64, time: f64, error: f64, earliest: f64): f64 {
  const last = time - load<f64>(row, LAG * NUMBER)
  if (limbMargin(row, gap, last - earliest, error) < 0) return -Infinity
  if (gap <= 0) return last
  const radius = load<f64>(row, CATCH_RADIUS * NUMBER)
  const steady = load<f64>(row, ERROR_STEADY * NUMBER)
  const distance = gap + radius
  const rush = load<f64>(row, ERROR_PER_SPEED * NUMBER) * distance
  const takes = reachTime(row, distance)

  // solve: margin(tau) = 0. Newton, kept between a time that is too short and one that does
  let least: f64 = 0
  let most = last - earliest
  let tau = takes < most ? 0.7 * takes : 0.7 * most
  for (let i = 0; i < MOST_STEPS; i++) {
    const x = tau < takes ? tau / takes : 1
    const y = 1 - x
    const hasty = rush / tau
    const sd = sqrt(steady * steady + hasty * hasty)
    const margin = radius - distance * (1 - x * x * x * (10 + x * (6 * x - 15))) - error * sd
    if (margin >= 0) most = tau
    else least = tau
    const rise = (30 * distance * x * x * y * y) / takes + (error * hasty * hasty) / (sd * tau)
    let next = tau - margin / rise
    if (!(next > least && next < most)) next = 0.5 * (least + most)
    const step = next - tau
    tau = next
    if (step < START_TOLERANCE && step > -START_TOLERANCE) break
  }
  return last - tau
}
