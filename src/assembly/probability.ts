import {
  ENDS,
  MOMENT_MEDIAN,
  MOMENT_READ,
  MOMENT_SPREAD,
  OUTCOME,
  OUTCOME_BY_REGION,
  STRETCH_COUNT,
  STRETCH_HI,
  STRETCH_LO,
  STRETCH_REGION,
  STRETCH_WHEN,
} from "../sim/compiled/layout.ts"
import { cumulativeLognormal } from "./lognormal.ts"
import { momentOf, NUMBER } from "./tables.ts"

/** A number of stretch i, see STRETCH_… */
// @ts-ignore: decorator
@inline
function numberOf(stretches: usize, i: i32, column: usize): f64 {
  return load<f64>(stretches + column + i * NUMBER)
}

/** Adds to the share of the region that makes stretch i. */
function addToRegion(stretches: usize, i: i32, share: f64): void {
  const at: usize = OUTCOME + OUTCOME_BY_REGION + <i32>load<u8>(stretches + i, STRETCH_REGION) * NUMBER
  store<f64>(at, load<f64>(at) + share)
}

/** Probability that the hands start before `start`. */
function startsBefore(start: f64): f64 {
  return cumulativeLognormal(start + momentOf(MOMENT_READ), momentOf(MOMENT_MEDIAN), momentOf(MOMENT_SPREAD))
}

/** Probability that the hands' start falls into the union of the stretches, see sim/saves.ts. */
export function probabilityOf(saves: usize, weight: f64): f64 {
  const n = load<i32>(saves, STRETCH_COUNT)
  if (n == 0) return 0
  if (n == 1) {
    const p = startsBefore(numberOf(saves, 0, STRETCH_HI)) - startsBefore(numberOf(saves, 0, STRETCH_LO))
    addToRegion(saves, 0, weight * p)
    return p
  }
  // one stretch that holds every other and is met first decides alone
  let first = 0
  for (let i = 1; i < n; i++) if (numberOf(saves, i, STRETCH_WHEN) < numberOf(saves, first, STRETCH_WHEN)) first = i
  if (numberOf(saves, first, STRETCH_LO) == -Infinity && numberOf(saves, first, STRETCH_HI) == Infinity) {
    addToRegion(saves, first, weight)
    return 1
  }
  return sweepStretches(saves, weight)
}

/** Walks the sorted ends; between two neighbours the same stretches hold. */
function sweepStretches(saves: usize, weight: f64): f64 {
  const count = sortEnds(saves)
  let total: f64 = 0
  let below = startsBefore(endOf(0))
  for (let e = 0; e + 1 < count; e++) {
    const above = startsBefore(endOf(e + 1))
    const p = above - below
    below = above
    if (!(p > 0)) continue
    const by = earliestOver(saves, endOf(e), endOf(e + 1))
    if (by < 0) continue
    addToRegion(saves, by, weight * p)
    total += p
  }
  return total
}

/** Share of [-length, 0] that the stretches cover; each region's own part of it, times `weight`, is added up. */
export function coveredShare(cover: usize, length: f64, weight: f64): f64 {
  if (load<i32>(cover, STRETCH_COUNT) == 0) return 0
  const count = sortEnds(cover)
  let total: f64 = 0
  for (let e = 0; e + 1 < count; e++) {
    const share = (endOf(e + 1) - endOf(e)) / length
    const by = earliestOver(cover, endOf(e), endOf(e + 1))
    if (by < 0) continue
    addToRegion(cover, by, weight * share)
    total += share
  }
  return total
}

/** The place in [-length, 0] below which a share `u` of what the stretches leave open lies; 0 < u < 1. */
export function placeInOpen(cover: usize, length: f64, u: f64): f64 {
  if (load<i32>(cover, STRETCH_COUNT) == 0) return (u - 1) * length
  const count = sortEnds(cover)
  let open = length
  for (let e = 0; e + 1 < count; e++)
    if (earliestOver(cover, endOf(e), endOf(e + 1)) >= 0) open -= endOf(e + 1) - endOf(e)
  let left = u * open
  let from = -length
  for (let e = 0; e < count; e++) {
    const to = endOf(e)
    const covered = e > 0 && earliestOver(cover, endOf(e - 1), to) >= 0
    if (!covered) {
      if (left <= to - from) return from + left
      left -= to - from
    }
    from = to
  }
  return from + left
}

// @ts-ignore: decorator
@inline
function endOf(e: i32): f64 {
  return load<f64>(ENDS + e * NUMBER)
}

/** All ends in order without doubles; returns how many. */
function sortEnds(stretches: usize): i32 {
  let count = 0
  const n = load<i32>(stretches, STRETCH_COUNT)
  for (let i = 0; i < n; i++) {
    count = insertEnd(count, numberOf(stretches, i, STRETCH_LO))
    count = insertEnd(count, numberOf(stretches, i, STRETCH_HI))
  }
  return count
}

/** Insertion into a sorted list without doubles; returns the new count. */
function insertEnd(count: i32, value: f64): i32 {
  let i = count
  while (i > 0 && endOf(i - 1) > value) i--
  if (i > 0 && endOf(i - 1) == value) return count
  for (let j = count; j > i; j--) store<f64>(ENDS + j * NUMBER, endOf(j - 1))
  store<f64>(ENDS + i * NUMBER, value)
  return count + 1
}

/** The stretch over all of [a, b] that is met first, or -1. */
function earliestOver(stretches: usize, a: f64, b: f64): i32 {
  let by = -1
  const n = load<i32>(stretches, STRETCH_COUNT)
  for (let i = 0; i < n; i++) {
    if (!(numberOf(stretches, i, STRETCH_LO) <= a && numberOf(stretches, i, STRETCH_HI) >= b)) continue
    if (by < 0 || numberOf(stretches, i, STRETCH_WHEN) < numberOf(stretches, by, STRETCH_WHEN)) by = i
  }
  return by
}
