import { goalkeeping } from "../../sim/answer.ts"
import { clearCells } from "../../sim/clear-mouth.ts"
import type { CompiledKernel } from "../../sim/compiled/kernel.ts"
import { type MouthGrid, mouthGrid } from "../../sim/mouth-grid.ts"
import { type MapShot, reachProbability, spareTime } from "../../sim/reach-map.ts"
import * as S from "../../sim/strata.ts"
import { MOUTH_HALF_WIDTH, MOUTH_HEIGHT, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../sim/world.ts"
import { compileScene } from "../plays/scene.ts"
import type { Settings } from "../settings.ts"

/** Reach over the mouth from the first place of a play, at the usual speed from there. */
export interface ReachOfPose {
  readonly grid: MouthGrid
  readonly shot: MapShot
  /** [columns x rows] 1 where a puck from there gets past posts and bar: at a sharp angle not everywhere */
  readonly clear: Uint8Array
  /** [columns x rows] s; Infinity where the standing body covers, -Infinity where no reaction saves */
  readonly spare: Float64Array
  /** [columns x rows] chance that a perfect shot there is stopped; empty when not asked for */
  readonly probability: Float64Array
}

/**
 * The reach map of one goalie: `columns` x `rows` cells over the places where the middle of a
 * puck from straight ahead clears the iron; which of them one from the shot's own place clears is told apart. `compiled`
 * finds the same numbers sooner where it is given.
 */
export function reachOf(
  settings: Settings,
  columns: number,
  rows: number,
  withProbability: boolean,
  compiled: CompiledKernel | null = null,
): ReachOfPose {
  // nobody aims at the goalie here: shots go to every place of the mouth
  const scene = compileScene([{ ...settings, choices: { ...settings.choices, "shooter.aim": "point" } }])
  const keeper = goalkeeping(scene, compiled)
  const pose = scene.poses[0]!
  const table = scene.strata.table
  const shot: MapShot = {
    x: firstPlace(table, 0),
    y: firstPlace(table, 1),
    z: table[S.RELEASE_HEIGHT]!,
    speed: table[S.SPEED_MEAN]!,
    read: table[S.EARLY_READ]!,
  }
  const world = scene.world
  const grid = mouthGrid(
    world[MOUTH_HALF_WIDTH]! - world[PUCK_RADIUS]!,
    world[PUCK_HALF_THICKNESS]!,
    world[MOUTH_HEIGHT]! - world[PUCK_HALF_THICKNESS]!,
    columns,
    rows,
  )
  return {
    grid,
    shot,
    clear: clearCells(keeper, shot, grid),
    spare: spareTime(keeper, pose, shot, grid),
    probability: withProbability ? reachProbability(keeper, pose, shot, grid) : new Float64Array(0),
  }
}

/** Middle of the first stratum's origin: x for coordinate 0, y for 1. */
function firstPlace(table: Float64Array, coordinate: 0 | 1): number {
  if (table[S.ORIGIN_KIND] === S.WEDGE) {
    const r = 0.5 * (table[S.ORIGIN]! + table[S.ORIGIN + 1]!)
    const angle = 0.5 * (table[S.ORIGIN + 2]! + table[S.ORIGIN + 3]!)
    return coordinate === 0 ? r * Math.cos(angle) : r * Math.sin(angle)
  }
  return (table[S.ORIGIN + coordinate]! + table[S.ORIGIN + 2 + coordinate]! + table[S.ORIGIN + 4 + coordinate]!) / 3
}
