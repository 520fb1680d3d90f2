import { mean, sampleStandardDeviation } from "simple-statistics"
import type { Seconds } from "../../sim/units.ts"

/** What a hand on a stop-watch errs by from reading to reading, s: an assumption, from memory. */
export const WATCH_ERROR: Seconds = 0.1

/** One timing and what its instrument alone may be off by. */
export interface Reading {
  readonly seconds: Seconds
  /** Standard deviation of the instrument: the stop-watch's error, or one frame of the video. */
  readonly error: Seconds
}

/** What several readings of the same thing say together. */
export interface Timing {
  readonly n: number
  readonly mean: Seconds
  readonly standardError: Seconds
  /** The readings differ by more than their instruments explain, as those of a goalie who varies do. */
  readonly varies: boolean
}

/** A spread this many times the instrument's own is put down to the goalie, with at least so many readings. */
const NOTABLE_RATIO = 2
const NOTABLE_READINGS = 3

/**
 * Mean of readings and its standard error. Readings of one instrument err by what they show, sqrt(sum (x - mean)² /
 * (n - 1)), and never by less than the instrument: a few that happen to agree are no proof. Stop-watch and video are
 * weighted by one over their squared errors.
 */
export function timingOf(readings: readonly Reading[]): Timing {
  const groups = [...new Set(readings.map(({ error }) => error))].map((error) => {
    const seconds = readings.filter((reading) => reading.error === error).map((reading) => reading.seconds)
    const shown = seconds.length > 1 ? sampleStandardDeviation(seconds) : 0
    const varies = seconds.length >= NOTABLE_READINGS && shown > NOTABLE_RATIO * error
    return { mean: mean(seconds), standardError: Math.max(shown, error) / Math.sqrt(seconds.length), varies }
  })
  const weights = groups.map(({ standardError }) => 1 / standardError ** 2)
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  return {
    n: readings.length,
    mean: groups.reduce((sum, group, i) => sum + weights[i]! * group.mean, 0) / total,
    standardError: 1 / Math.sqrt(total),
    varies: groups.some(({ varies }) => varies),
  }
}
