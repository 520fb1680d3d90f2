import { REGIONS } from "./parts.ts"
import { fastCumulativeLognormal } from "./random/lognormal.ts"
import type { Probability } from "./units.ts"

/**
 * The saving reactions of one shot: stretches of the moment when the hands start (seconds after the release) for which
 * some part stops the puck. In tight they are several, since dropping opens lanes the standing body covered.
 */
export interface Saves {
  count: number
  /** Some part stops the puck whatever the reaction: parts behind it need not be asked. */
  certain: boolean
  /** Stretch i is lo[i] < start <= hi[i], -Infinity and Infinity allowed. */
  readonly lo: Float64Array
  readonly hi: Float64Array
  /** When the puck is level with the part that stops it, s after the release: the earlier of two takes the save. */
  readonly when: Float64Array
  readonly region: Uint8Array
  readonly limb: Uint8Array
  /** Ends of all stretches in order, scratch. */
  readonly ends: Float64Array
}

/** Most stretches kept; the body has at most 22 parts, each in at most a few stretches. */
const MOST_STRETCHES = 96

export function noSaves(): Saves {
  return {
    count: 0,
    certain: false,
    lo: new Float64Array(MOST_STRETCHES),
    hi: new Float64Array(MOST_STRETCHES),
    when: new Float64Array(MOST_STRETCHES),
    region: new Uint8Array(MOST_STRETCHES),
    limb: new Uint8Array(MOST_STRETCHES),
    ends: new Float64Array(2 * MOST_STRETCHES),
  }
}

/** Starts a new shot. */
export function clearSaves(saves: Saves): void {
  saves.count = 0
  saves.certain = false
}

/** Adds a stretch; an empty one is ignored. */
export function addStretch(saves: Saves, lo: number, hi: number, when: number, region: number, limb: number): void {
  if (!(hi > lo) || saves.count === MOST_STRETCHES) return
  const i = saves.count++
  saves.lo[i] = lo
  saves.hi[i] = hi
  saves.when[i] = when
  saves.region[i] = region
  saves.limb[i] = limb
}

/**
 * Probability that the hands' start falls into the union of the stretches, when the reaction time is lognormal and
 * `read` seconds of it pass before the release. Adds each region's own share to `byRegion` [REGIONS.length] at
 * `offset`, times `weight`: where stretches overlap the part the puck meets first takes the save.
 */
export function probabilityOf(
  saves: Saves,
  median: number,
  spread: number,
  read: number,
  weight: number,
  byRegion: Float64Array,
  offset: number,
): Probability {
  const n = saves.count
  if (n === 0) return 0
  if (n === 1) {
    const p =
      fastCumulativeLognormal(saves.hi[0]! + read, median, spread) -
      fastCumulativeLognormal(saves.lo[0]! + read, median, spread)
    byRegion[offset + saves.region[0]!]! += weight * p
    return p
  }
  // one stretch that holds every other and is met first decides alone
  let first = 0
  for (let i = 1; i < n; i++) if (saves.when[i]! < saves.when[first]!) first = i
  if (saves.lo[first] === -Infinity && saves.hi[first] === Infinity) {
    byRegion[offset + saves.region[first]!]! += weight
    return 1
  }
  return sweepStretches(saves, median, spread, read, weight, byRegion, offset)
}

/**
 * Share of [-length, 0] that the stretches cover; each region's own part of it, times `weight`, goes to `byRegion`, the
 * earliest met taking what overlaps.
 */
export function coveredShare(cover: Saves, length: number, weight: number, byRegion: Float64Array): Probability {
  if (cover.count === 0) return 0
  const ends = cover.ends
  const count = sortEnds(cover)
  let total = 0
  for (let e = 0; e + 1 < count; e++) {
    const share = (ends[e + 1]! - ends[e]!) / length
    const by = earliestOver(cover, ends[e]!, ends[e + 1]!)
    if (by < 0) continue
    byRegion[cover.region[by]!]! += weight * share
    total += share
  }
  return total
}

/** The place in [-length, 0] below which a share `u` of what the stretches leave open lies; 0 < u < 1. */
export function placeInOpen(cover: Saves, length: number, u: number): number {
  if (cover.count === 0) return (u - 1) * length
  const ends = cover.ends
  const count = sortEnds(cover)
  let open = length
  for (let e = 0; e + 1 < count; e++)
    if (earliestOver(cover, ends[e]!, ends[e + 1]!) >= 0) open -= ends[e + 1]! - ends[e]!
  let left = u * open
  let from = -length
  for (let e = 0; e < count; e++) {
    const to = ends[e]!
    const covered = e > 0 && earliestOver(cover, ends[e - 1]!, to) >= 0
    if (!covered) {
      if (left <= to - from) return from + left
      left -= to - from
    }
    from = to
  }
  return from + left
}

/** Walks the sorted ends; between two neighbours the same stretches hold. */
function sweepStretches(
  saves: Saves,
  median: number,
  spread: number,
  read: number,
  weight: number,
  byRegion: Float64Array,
  offset: number,
): Probability {
  const ends = saves.ends
  const count = sortEnds(saves)
  let total = 0
  let below = fastCumulativeLognormal(ends[0]! + read, median, spread)
  for (let e = 0; e + 1 < count; e++) {
    const above = fastCumulativeLognormal(ends[e + 1]! + read, median, spread)
    const p = above - below
    below = above
    if (!(p > 0)) continue
    const by = earliestOver(saves, ends[e]!, ends[e + 1]!)
    if (by < 0) continue
    byRegion[offset + saves.region[by]!]! += weight * p
    total += p
  }
  return total
}

/** All ends in order without doubles; returns how many. */
export function sortEnds(saves: Saves): number {
  let count = 0
  for (let i = 0; i < saves.count; i++) {
    count = insertEnd(saves.ends, count, saves.lo[i]!)
    count = insertEnd(saves.ends, count, saves.hi[i]!)
  }
  return count
}

/** The stretch over all of [a, b] that is met first, or -1. */
export function earliestOver(saves: Saves, a: number, b: number): number {
  let by = -1
  for (let i = 0; i < saves.count; i++) {
    if (saves.lo[i]! <= a && saves.hi[i]! >= b && (by < 0 || saves.when[i]! < saves.when[by]!)) by = i
  }
  return by
}

/** Insertion into a sorted list without doubles; returns the new count. */
function insertEnd(ends: Float64Array, count: number, value: number): number {
  let i = count
  while (i > 0 && ends[i - 1]! > value) i--
  if (i > 0 && ends[i - 1] === value) return count
  for (let j = count; j > i; j--) ends[j] = ends[j - 1]!
  ends[i] = value
  return count + 1
}

/** The latest start of the hands that still saves: -Infinity when none does. */
export function latestSavingStart(saves: Saves): number {
  let latest = -Infinity
  for (let i = 0; i < saves.count; i++) if (saves.hi[i]! > latest) latest = saves.hi[i]!
  return latest
}

/**
 * Number of separate stretches that the starts which save fall into, those that overlap or touch being one. The first
 * start and the last go to `ends` at `at`, where there are any. None begins before `earliest`: what holds it begins
 * however early, -Infinity.
 */
export function spanOfSaves(saves: Saves, earliest: number, ends: Float64Array, at = 0): number {
  let count = 0
  let first = Infinity
  let last = -Infinity
  for (let i = 0; i < saves.count; i++) {
    if (!(saves.hi[i]! > earliest)) continue
    const lo = saves.lo[i]! <= earliest ? -Infinity : saves.lo[i]!
    if (lo < first) first = lo
    if (saves.hi[i]! > last) last = saves.hi[i]!
    if (beginsAlone(saves, i, lo, earliest)) count++
  }
  if (count > 0) {
    ends[at] = first
    ends[at + 1] = last
  }
  return count
}

/** Whether no other stretch holds the place where this one begins; of several that begin together the first does. */
function beginsAlone(saves: Saves, i: number, lo: number, earliest: number): boolean {
  for (let j = 0; j < saves.count; j++) {
    if (j === i || !(saves.hi[j]! > earliest)) continue
    const other = saves.lo[j]! <= earliest ? -Infinity : saves.lo[j]!
    if (other < lo ? saves.hi[j]! >= lo : other === lo && j < i) return false
  }
  return true
}

/** The stretch that stops the puck when the hands start at `start`, or -1: the one met first. */
export function stretchAt(saves: Saves, start: number): number {
  let by = -1
  for (let i = 0; i < saves.count; i++) {
    if (saves.lo[i]! < start && start <= saves.hi[i]! && (by < 0 || saves.when[i]! < saves.when[by]!)) by = i
  }
  return by
}

/** Number of regions, for the sizes of tables. */
export const REGION_COUNT = REGIONS.length
