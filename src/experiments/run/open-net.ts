import { compileScene } from "../../models/plays/scene.ts"
import type { Settings } from "../../models/settings.ts"
import { type Goalkeeping, goalkeeping } from "../../sim/answer.ts"
import { measureOpenNet, onTheWay, openNet, openShareAt } from "../../sim/open-net.ts"
import {
  branchRow,
  LEG_COUNT,
  LEG_CUT,
  LEG_KIND,
  LEG_PASS,
  LEG_STRIDE,
  LEGS,
  PLAY_MOVES,
} from "../../sim/play/course.ts"
import type { Scene } from "../../sim/pose.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import type { Sampler } from "../../sim/sampler.ts"
import { REPLICATES } from "../../sim/sampling.ts"
import { makeShots, type ShotBatch, shotBatch } from "../../sim/shots.ts"
import { quantileSorted, sortedCopy } from "../../sim/statistics/quantile.ts"
import * as S from "../../sim/strata.ts"
import type { OpenNetCurve } from "../results.ts"
import type { Share } from "./shares.ts"

/** Shots of each replicate whose way is looked at: a box at every instant costs more than a save. */
const SHOTS_OF_REPLICATE = 4
/** Shots of a point behind the measures of the open net. */
export const OPEN_NET_SHOTS = REPLICATES * SHOTS_OF_REPLICATE
/** Instants of a curve, and how long after the release it ends at the latest, s. */
const INSTANTS = 33
const LATEST = 0.6
/** A band holds this much of the shots. */
const LOW = 0.05
const HIGH = 0.95

/** The open net during the move at one design point, over a few shots: by measure, sums by replicate; null where nobody moves. */
export type OpenNetShares = Readonly<Record<"open_at_release" | "open_most" | "open_net_time_s", Share>> | null

/** Measures the open net of one pose over the first shots of every replicate. */
export function openNetShares(settings: Settings, key: SeedKey, sampler: Sampler): OpenNetShares {
  const scene = compileScene([settings])
  if (scene.play[PLAY_MOVES] !== 1) return null
  const sums = () => new Float64Array(REPLICATES)
  const [below, atRelease, most, time] = [sums(), sums(), sums(), sums()]
  const found = openNet()
  overShots(scene, key, sampler, (g, batch, i, r, weight) => {
    if (!measureOpenNet(g, scene.poses[0]!, batch, i, found)) return
    below[r]! += weight
    atRelease[r]! += weight * found.atRelease
    most[r]! += weight * found.most
    time[r]! += weight * found.time
  })
  if (!below.some((sum) => sum > 0)) return null
  return {
    open_at_release: { above: atRelease, below },
    open_most: { above: most, below },
    open_net_time_s: { above: time, below },
  }
}

/** The open net against the time from the release: mean and spread over the shots. Null where nobody moves. */
export function openNetCurve(settings: Settings, key: SeedKey, sampler: Sampler): OpenNetCurve | null {
  const scene = compileScene([settings])
  if (scene.play[PLAY_MOVES] !== 1) return null
  const pose = scene.poses[0]!
  const starts: number[] = []
  const sets: number[] = []
  const kinds: OpenNetCurve["move"][] = []
  overShots(scene, key, sampler, (g, batch, i) => {
    const way = onTheWay(g, pose, batch, i)
    if (way === null) return
    starts.push(way.lastLeg)
    sets.push(way.setAt)
    kinds.push(moveOf(scene, batch, i))
  })
  if (starts.length === 0) return null
  const middle = (values: readonly number[]): number => quantileSorted(sortedCopy(values), 0.5)
  const from = quantileSorted(sortedCopy(starts), LOW)
  const to = Math.min(LATEST, Math.max(0, quantileSorted(sortedCopy(sets), HIGH)))
  const at = instants(from, to)
  const shares = at.map((): number[] => [])
  overShots(scene, key, sampler, (g, batch, i) => {
    const way = onTheWay(g, pose, batch, i)
    if (way === null) return
    for (const [k, t] of at.entries()) shares[k]!.push(openShareAt(g, pose, way, t))
  })
  const sorted = shares.map((values) => sortedCopy(values))
  return {
    at,
    mean: shares.map((values) => values.reduce((sum, share) => sum + share, 0) / values.length),
    low: sorted.map((values) => quantileSorted(values, LOW)),
    high: sorted.map((values) => quantileSorted(values, HIGH)),
    move: kinds[0]!,
    starts: middle(starts),
    setAt: Number.isFinite(middle(sets)) ? middle(sets) : null,
  }
}

type Visit = (g: Goalkeeping, batch: ShotBatch, i: number, replicate: number, weight: number) => void

/** Shows the first shots of every replicate, each with its weight. */
function overShots(scene: Scene, key: SeedKey, sampler: Sampler, visit: Visit): void {
  const g = goalkeeping(scene)
  const batch = shotBatch(scene, SHOTS_OF_REPLICATE, false, sampler)
  const { share, allotment } = scene.strata
  for (let r = 0; r < REPLICATES; r++) {
    makeShots(scene, key, r, 0, SHOTS_OF_REPLICATE, batch)
    for (let i = 0; i < batch.count; i++) {
      const weight = share[batch.stratum[i]!]! / allotment[batch.stratum[i]!]!
      if (weight > 0) visit(g, batch, i, r, weight)
    }
  }
}

/** Even instants from the start to the end, the release among them. */
function instants(from: number, to: number): number[] {
  const before = Math.max(1, Math.round((INSTANTS - 1) * (from / (from - to))))
  const after = INSTANTS - 1 - before
  const row = (count: number, a: number, b: number) =>
    Array.from({ length: count }, (_, i) => a + (i / count) * (b - a))
  return [...row(before, from, 0), ...(after === 0 ? [0] : [...row(after, 0, to), to])]
}

/** What the puck does last before shot i. */
function moveOf({ play, strata }: Scene, batch: ShotBatch, i: number): OpenNetCurve["move"] {
  const branch = branchRow(strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.BRANCH]!)
  const kind = play[branch + LEGS + (play[branch + LEG_COUNT]! - 1) * LEG_STRIDE + LEG_KIND]
  return kind === LEG_PASS ? "pass" : kind === LEG_CUT ? "cut" : "carry"
}
