import { LIMBS, type Limb, NO_LIMB, REGIONS, type Region } from "../../sim/parts.ts"
import { cumulativeLognormal } from "../../sim/random/lognormal.ts"
import { type Saves, stretchAt } from "../../sim/saves.ts"
import type { Probability, Seconds } from "../../sim/units.ts"

/** Starts of the hands, from < start <= to, with which one part stops the puck. `from` is no earlier than possible. */
export interface Stretch {
  readonly from: Seconds
  readonly to: Seconds
  readonly region: Region
  /** Limb that carries the part to the puck; null where the part covers the path as the stance or the drop has it. */
  readonly limb: Limb | null
  readonly probability: Probability
}

/** The goalie's reaction time: lognormal, of which `read` seconds pass before the release. */
export interface Reaction {
  readonly median: Seconds
  readonly spread: number
  readonly read: Seconds
}

/** All starts that save, in order, each with the part that takes the save: of two the one the puck meets first. */
export function savingStretches(saves: Saves, { median, spread, read }: Reaction): Stretch[] {
  const below = (start: Seconds): Probability => cumulativeLognormal(start + read, median, spread)
  return partsBetween(saves, -read).map(({ from, to, by }) => ({
    from,
    to,
    region: REGIONS[saves.region[by]!]!,
    limb: saves.limb[by]! === NO_LIMB ? null : LIMBS[saves.limb[by]!]!,
    probability: below(to) - below(from),
  }))
}

/** Starts of a block, from < start <= to, for which the body covers the path, limbs left aside. */
export interface Cover {
  readonly from: Seconds
  readonly to: Seconds
  readonly region: Region
}

/** The covering starts of a block, in order, each with the part the puck meets first; none earlier than `earliest`. */
export function coverStretches(cover: Saves, earliest: Seconds): Cover[] {
  return partsBetween(cover, earliest).map(({ from, to, by }) => ({ from, to, region: REGIONS[cover.region[by]!]! }))
}

/** Cuts time from `earliest` on at every end, and keeps what some stretch holds. */
function partsBetween(saves: Saves, earliest: Seconds): { from: Seconds; to: Seconds; by: number }[] {
  const ends = new Set<number>([earliest])
  for (let i = 0; i < saves.count; i++)
    for (const end of [saves.lo[i]!, saves.hi[i]!]) if (end > earliest) ends.add(end)
  const sorted = [...ends].sort((a, b) => a - b)
  const found: { from: Seconds; to: Seconds; by: number }[] = []
  for (const [j, to] of sorted.slice(1).entries()) {
    const from = sorted[j]!
    const by = stretchAt(saves, to === Infinity ? from + 1 : 0.5 * (from + to))
    if (by < 0) continue
    const before = found.at(-1)
    if (before?.to === from && sameSaver(saves, before.by, by)) found[found.length - 1] = { ...before, to }
    else found.push({ from, to, by })
  }
  return found
}

function sameSaver(saves: Saves, a: number, b: number): boolean {
  return saves.region[a] === saves.region[b] && saves.limb[a] === saves.limb[b]
}

/** How far a start is from the nearest end of the starts that save. */
export interface Spare {
  readonly saved: boolean
  /** Infinity: no start would change it. */
  readonly by: Seconds
  /** For a goal: the hands started too late, or too early; null for a save or where no start saves. */
  readonly way: "late" | "early" | null
}

/** Time to spare, or time by which it was missed. Neighbouring stretches are one; the earliest start has no other side. */
export function spareOf(stretches: readonly Cover[], start: Seconds, earliest: Seconds): Spare {
  const joined: { from: Seconds; to: Seconds }[] = []
  for (const { from, to } of stretches) {
    const before = joined.at(-1)
    if (before !== undefined && before.to === from) before.to = to
    else joined.push({ from, to })
  }
  const around = joined.find(({ from, to }) => from < start && start <= to)
  if (around !== undefined) {
    const early = around.from <= earliest ? Infinity : start - around.from
    return { saved: true, by: Math.min(early, around.to - start), way: null }
  }
  let by = Infinity
  let way: Spare["way"] = null
  for (const { from, to } of joined) {
    const gap = start > to ? start - to : from - start
    if (gap >= by) continue
    by = gap
    way = start > to ? "late" : "early"
  }
  return { saved: false, by, way }
}
