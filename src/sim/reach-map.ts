import { blockShare, collectSaves, type Goalkeeping } from "./answer.ts"
import { clearanceMoving, clearanceStill } from "./clearance.ts"
import { fly } from "./flight.ts"
import { distanceOver, wayOver } from "./goal-line.ts"
import { aimAt, LAUNCH_AZIMUTH, LAUNCH_TANGENT } from "./launch.ts"
import { limbMargin } from "./limb.ts"
import { meetPart } from "./meet.ts"
import { distanceToBody, meetGoalie } from "./meet-goalie.ts"
import { LEVEL_PACE, LEVEL_TIME } from "./meeting.ts"
import { REACTS } from "./moment.ts"
import type { MouthGrid } from "./mouth-grid.ts"
import { LAG, LIMB_STRIDE, LIMBS, NO_LIMB, type Posture } from "./parts.ts"
import { heightAt, PATH_STRIDE, timeAt } from "./path.ts"
import * as P from "./pose.ts"
import { sampleLognormal } from "./random/lognormal.ts"
import { limbReaches } from "./react.ts"
import { latestSavingStart } from "./saves.ts"
import { stationExactly } from "./stand-exactly.ts"
import type { Metres, MetresPerSecond, Radians, Seconds } from "./units.ts"
import { MOUTH_HALF_WIDTH } from "./world.ts"

/** A shot of the map: from one spot at one speed, read this long before its release. */
export interface MapShot {
  readonly x: Metres
  readonly y: Metres
  readonly z: Metres
  readonly speed: MetresPerSecond
  readonly read: Seconds
}

/** Median of a Rayleigh length: the limb error at which a limb does as well as it does half the time. */
const MEDIAN_LENGTH = Math.sqrt(2 * Math.log(2))
/** Midpoints of equal shares over which the reaction and the lead of a block are integrated. */
const REACTION_NODES = 48
const LEAD_NODES = 12

/** Puts the goalie of a pose where it stands for a shot from (x, y), without any error of position. */
export function standExactly(g: Goalkeeping, pose: P.Pose, x: Metres, y: Metres): void {
  const posture = g.scene.postures[pose.posture]!
  stationExactly(posture, pose.numbers, g.scene.world[MOUTH_HALF_WIDTH]!, x, y, g.station)
}

/** Flies a perfect shot to (targetY, targetZ) on the goal plane; returns the distance up to which a save counts. */
export function flyTo(g: Goalkeeping, shot: MapShot, targetY: Metres, targetZ: Metres, path: Float64Array): Metres {
  const aimed = new Float64Array(2)
  aimAt(g.scene.world, shot.x, shot.y, shot.z, targetY, targetZ, shot.speed, 10, path, 0, aimed, 0)
  return flyOver(g, shot, aimed[LAUNCH_AZIMUTH]!, Math.atan(aimed[LAUNCH_TANGENT]!), path)
}

/** Flies a shot until the whole puck is over the goal line; returns the distance at which it is. */
export function flyOver(
  g: Goalkeeping,
  shot: MapShot,
  azimuth: Radians,
  elevation: Radians,
  path: Float64Array,
): Metres {
  const { world } = g.scene
  const until = (shot.x + wayOver(world)) / -Math.cos(azimuth)
  fly(world, shot.x, shot.y, shot.z, azimuth, elevation, shot.speed, until, path, 0)
  return distanceOver(world, path, 0)
}

/**
 * Time to spare over the mouth, seconds: the latest start of the hands that saves, counted from the median one, with
 * limbs placed as well as half the time; a goalie who reacts. Infinity where the standing body covers whatever the
 * reaction, -Infinity where no reaction saves. [columns x rows] of the grid's cell middles.
 */
export function spareTime(g: Goalkeeping, pose: P.Pose, shot: MapShot, grid: MouthGrid): Float64Array {
  const spare = new Float64Array(grid.columns * grid.rows)
  const path = new Float64Array(PATH_STRIDE)
  const median = pose.numbers[P.REACTION_MEDIAN]! - shot.read
  const errors = new Float64Array(LIMBS.length).fill(MEDIAN_LENGTH)
  standExactly(g, pose, shot.x, shot.y)
  eachCell(grid, (cell, y, z) => {
    const end = flyTo(g, shot, y, z, path)
    meetGoalie(g.meeting, path, 0, g.station, end)
    const now = g.now
    now.read = shot.read
    now.dropLead = pose.numbers[P.DROP_LEAD]!
    now.dropTime = pose.numbers[P.DROP_TIME]!
    now.lastPhase =
      heightAt(path, 0, distanceToBody(g.meeting)) <= pose.numbers[P.HIGH_PUCK]! ? 1 : pose.numbers[P.HIGH_DROP]!
    now.blockLead = REACTS
    now.leaks = false
    now.frozen = false
    now.errors = 0
    now.draws = errors
    now.stands = false
    collectSaves(g, g.prepared[pose.posture]!, path, 0)
    const latest = latestSavingStart(g.saves)
    spare[cell] = latest === Infinity || latest === -Infinity ? latest : latest - median
  })
  return spare
}

/**
 * Probability that a perfect shot to each cell's middle is stopped, by quadrature: the reaction over equal shares of
 * its distribution, a block over its lead, each limb's error in closed form (a Rayleigh length). It asks only where the
 * body is at given times, never for stretches of saving reactions: a second way to the save rate.
 */
export function reachProbability(g: Goalkeeping, pose: P.Pose, shot: MapShot, grid: MouthGrid): Float64Array {
  const probability = new Float64Array(grid.columns * grid.rows)
  const path = new Float64Array(PATH_STRIDE)
  standExactly(g, pose, shot.x, shot.y)
  eachCell(grid, (cell, y, z) => {
    const end = flyTo(g, shot, y, z, path)
    probability[cell] = stopProbability(g, pose, shot, path, end)
  })
  return probability
}

/** The stop probability of one path that starts at offset 0 of `path`; saves count up to the distance `end`. */
export function stopProbability(g: Goalkeeping, pose: P.Pose, shot: MapShot, path: Float64Array, end: Metres): number {
  const n = pose.numbers
  if (n[P.ANSWER] === P.ANSWER_ABSENT) return 0
  meetGoalie(g.meeting, path, 0, g.station, end)
  const body = distanceToBody(g.meeting)
  const blocks = blockShare(n, timeAt(path, 0, body))
  const high = heightAt(path, 0, body) > n[P.HIGH_PUCK]!
  const clocks: Clock[] = []
  if (n[P.ANSWER] === P.ANSWER_FROZEN) clocks.push({ weight: 1, drop: Infinity, hands: Infinity, last: 1 })
  else {
    const starts = Float64Array.from({ length: REACTION_NODES }, (_, j) => {
      const u = (j + 0.5) / REACTION_NODES
      return sampleLognormal(u, n[P.REACTION_MEDIAN]!, n[P.REACTION_SPREAD]!) - shot.read
    })
    const last = high ? n[P.HIGH_DROP]! : 1
    if (blocks < 1)
      for (const hands of starts)
        clocks.push({ weight: (1 - blocks) / starts.length, drop: hands - n[P.DROP_LEAD]!, hands, last })
    // each lead with every fourth reaction, another four for the next lead
    if (blocks > 0)
      for (let l = 0; l < LEAD_NODES; l++)
        for (let j = l % 4; j < REACTION_NODES; j += 4) {
          const drop = -((l + 0.5) / LEAD_NODES) * n[P.BLOCK_LEAD]!
          clocks.push({ weight: (4 * blocks) / (LEAD_NODES * REACTION_NODES), drop, hands: starts[j]!, last: 1 })
        }
  }
  return stopOver(g, pose, path, clocks)
}

/** One way the goalie's clocks may run: when drop and hands start, how far the drop goes, and how likely that is. */
interface Clock {
  readonly weight: number
  readonly drop: Seconds
  readonly hands: Seconds
  readonly last: number
}

/** Stop probability over the clocks: covered, or else reached by some limb. */
function stopOver(g: Goalkeeping, pose: P.Pose, path: Float64Array, clocks: readonly Clock[]): number {
  const prepared = g.prepared[pose.posture]!
  const { posture } = prepared
  const covered = new Uint8Array(clocks.length)
  const byLimb = new Float64Array(clocks.length * LIMBS.length)
  for (let part = 0; part < posture.count; part++) {
    if (!meetPart(g.meeting, prepared, part, path, 0)) continue
    const limb = posture.carrier[part]!
    const time = g.meeting.level[LEVEL_TIME]!
    for (const [c, clock] of clocks.entries()) {
      if (covered[c] === 1 && posture.leak === 0) continue
      const { gap, phase } = gapAt(g, pose, posture, clock)
      if (gap <= 0) covered[c] = 1
      else if (limb !== NO_LIMB && clock.hands < Infinity && limbReaches(g.meeting, posture, limb, phase)) {
        const at = c * LIMBS.length + limb
        byLimb[at] = Math.max(byLimb[at]!, limbProbability(posture.limbs, limb, gap, time - clock.hands))
      }
    }
  }
  let total = 0
  for (const [c, clock] of clocks.entries()) {
    let missed = 1
    for (let limb = 0; limb < LIMBS.length; limb++) missed *= 1 - byLimb[c * LIMBS.length + limb]!
    total += clock.weight * (covered[c] === 1 ? 1 - posture.leak * missed : 1 - missed)
  }
  return total
}

/** Clearance of the path from the part in hand where the drop has it when the puck is level, and that key phase. */
function gapAt(g: Goalkeeping, pose: P.Pose, posture: Posture, clock: Clock): { gap: Metres; phase: number } {
  const last = posture.phases - 1
  const dropTime = pose.numbers[P.DROP_TIME]!
  const raw = ((g.meeting.level[LEVEL_TIME]! - clock.drop) / dropTime) * last
  if (!(raw > 0)) return { gap: clearanceStill(g.meeting, 0), phase: 0 }
  const landed = raw >= clock.last * last
  const phase = landed ? clock.last * last : raw
  const pace = landed ? 0 : (g.meeting.level[LEVEL_PACE]! * last) / dropTime
  return { gap: clearanceMoving(g.meeting, phase, posture.phases, pace), phase }
}

/** Chance that the limb's Rayleigh error is small enough: 1 - exp(-x²/2), x = (margin without error) / sd. */
function limbProbability(limbs: Float64Array, limb: number, gap: Metres, sinceStart: Seconds): number {
  const row = limb * LIMB_STRIDE
  const tau = sinceStart - limbs[row + LAG]!
  const without = limbMargin(limbs, row, gap, tau, 0)
  if (without <= 0) return 0
  const sd = without - limbMargin(limbs, row, gap, tau, 1)
  const x = without / sd
  return -Math.expm1(-0.5 * x * x)
}

/** Calls back with every cell's index and middle. */
export function eachCell(grid: MouthGrid, visit: (cell: number, y: Metres, z: Metres) => void): void {
  for (let row = 0; row < grid.rows; row++)
    for (let column = 0; column < grid.columns; column++)
      visit(
        row * grid.columns + column,
        0.5 * (grid.y[column]! + grid.y[column + 1]!),
        0.5 * (grid.z[row]! + grid.z[row + 1]!),
      )
}
