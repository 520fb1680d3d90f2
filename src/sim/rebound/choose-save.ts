import { blockNow, collectCover, collectSaves, type Goalkeeping, preparedNow, reactNow, timeMet } from "../answer.ts"
import { dropStart } from "../moment.ts"
import type { Outcome, SaveMade } from "../outcome.ts"
import * as P from "../pose.ts"
import { fastCumulativeLognormal, sampleLognormal } from "../random/lognormal.ts"
import { coveredShare, earliestOver, placeInOpen, type Saves, sortEnds } from "../saves.ts"
import type { ShotBatch } from "../shots.ts"
import type { Seconds } from "../units.ts"

/**
 * Chooses one of the saves that a conditional answer adds up, by the uniform `u`: block or reaction, the lead of a block,
 * the reaction, in proportion to what each adds; writes it to `outcome.save`. Call it after the answer of the same shot.
 */
export function chooseSave(
  g: Goalkeeping,
  pose: P.Pose,
  batch: ShotBatch,
  path: number,
  outcome: Outcome,
  u: number,
  scratch: Float64Array,
): void {
  const { now } = g
  const prepared = preparedNow(g, pose)
  const target = u * outcome.saved
  const byReaction = outcome.saved - outcome.savedByBlock
  if (target < byReaction) {
    reactNow(now)
    collectSaves(g, prepared, batch.path, path)
    pickStart(g, pose, target / (1 - now.blockShare), outcome.save)
    return
  }
  chooseBlock(g, pose, batch, path, (target - byReaction) / now.blockShare, outcome.save, scratch)
}

/** A save by a block, by the share `v` of all blocks below it. */
function chooseBlock(
  g: Goalkeeping,
  pose: P.Pose,
  batch: ShotBatch,
  path: number,
  v: number,
  save: SaveMade,
  scratch: Float64Array,
): void {
  const { now, cover } = g
  const length = now.longestLead
  const prepared = preparedNow(g, pose)
  if (now.leaks || !(length > 0)) {
    blockNow(now)
    collectSaves(g, prepared, batch.path, path)
    pickStart(g, pose, v, save)
    return
  }
  collectCover(g, prepared, batch.path, path)
  const covered = coveredShare(cover, length, 0, scratch)
  if (v < covered) {
    pickCover(g, pose, v * length, save)
    return
  }
  blockNow(now)
  now.blockLead = -placeInOpen(cover, length, 1 - now.drawnLead / length)
  collectSaves(g, prepared, batch.path, path)
  pickStart(g, pose, (v - covered) / (1 - covered), save)
}

/** The start of the hands below which a share `v` of the saving reactions lies, and who saves then. */
function pickStart(g: Goalkeeping, pose: P.Pose, v: number, save: SaveMade): void {
  const { saves, now } = g
  const median = pose.numbers[P.REACTION_MEDIAN]!
  const spread = pose.numbers[P.REACTION_SPREAD]!
  const count = sortEnds(saves)
  let left = v
  let by = -1
  let start = 0
  for (let e = 0; e + 1 < count; e++) {
    const over = earliestOver(saves, saves.ends[e]!, saves.ends[e + 1]!)
    if (over < 0) continue
    const below = fastCumulativeLognormal(saves.ends[e]! + now.read, median, spread)
    const p = fastCumulativeLognormal(saves.ends[e + 1]! + now.read, median, spread) - below
    if (!(p > 0)) continue
    by = over
    const within = left < p ? left : p
    const q = below + within
    start = sampleLognormal(q < 1e-12 ? 1e-12 : q > 1 - 1e-12 ? 1 - 1e-12 : q, median, spread) - now.read
    left -= p
    if (left < 0) break
  }
  if (by < 0) {
    save.part = -1
    return
  }
  writeSave(g, pose, saves, by, dropStart(now, start), save)
}

/** The moment of a block's start below which `length` of the covering ones lies, and who covers the path then. */
function pickCover(g: Goalkeeping, pose: P.Pose, length: number, save: SaveMade): void {
  const { cover } = g
  const count = sortEnds(cover)
  let left = length
  let by = -1
  let start = 0
  for (let e = 0; e + 1 < count; e++) {
    const over = earliestOver(cover, cover.ends[e]!, cover.ends[e + 1]!)
    if (over < 0) continue
    const span = cover.ends[e + 1]! - cover.ends[e]!
    by = over
    start = cover.ends[e]! + (left < span ? left : span)
    left -= span
    if (left < 0) break
  }
  writeSave(g, pose, cover, by, start, save)
}

/** The save by stretch `by` of the saving reactions in hand, with hands that start at `start`: written to `save` as drawn. */
export function takeSave(g: Goalkeeping, pose: P.Pose, by: number, start: number, save: SaveMade): void {
  save.drawn = 1
  writeSave(g, pose, g.saves, by, dropStart(g.now, start), save)
}

/** The save by one of some stretches, with a drop that starts at `drop`. */
function writeSave(g: Goalkeeping, pose: P.Pose, from: Saves, by: number, drop: Seconds, save: SaveMade): void {
  save.limb = from.limb[by]!
  save.time = from.when[by]!
  save.part = partOf(g, pose, from.when[by]!, from.region[by]!)
  save.dropStart = drop
}

/** The part of a region that is level with the puck at this moment. */
function partOf(g: Goalkeeping, pose: P.Pose, when: number, region: number): number {
  const posture = g.scene.postures[pose.posture]!
  for (let part = 0; part < posture.count; part++)
    if (posture.region[part] === region && timeMet(g, part) === when) return part
  return -1
}
