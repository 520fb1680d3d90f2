import * as D from "./draws.ts"
import { chooseLandings, LANDING_STRIDE } from "./landing/choose-landings.ts"
import { type LandingGrid, landingGrid } from "./landing/landing-grid.ts"
import { BRANCH_COUNT, branchRow, DRAW_LEG, DRAW_LOST, LEG_COUNT, PLAY_DRAWS, PLAY_MOVES } from "./play/course.ts"
import { ANGLE_ERROR, DEPTH, OFF_LINE_ERROR, type Scene } from "./pose.ts"
import {
  fillCoordinates,
  openReplicate,
  type ScrambledSequence,
  scrambledSequence,
} from "./random/scrambled-sequence.ts"
import { fillUniforms, PLAY, type SeedKey } from "./random/streams.ts"
import { REBOUND_DRAWS } from "./rebound/rebound-table.ts"
import { PUCK_DRAWS } from "./traffic/traffic.ts"

/**
 * A shot's draws as the coordinates of one point of a scrambled sequence: shot n of a replicate is point n, so a batch
 * carries on where the one before it ended, however large they are. Dimensions go to draws in the order of what these
 * change in a save. The first four choose place, stratum, aimed point and error of aim by where the shot lands. Draws
 * that have no dimension, those of a play's later legs, of traffic and of rebounds, are the independent ones of their
 * stream.
 */
type Order = readonly (readonly [draw: number, dimension: number])[]

const SHOOTER_ORDER: Order = [
  [D.DRAW_SPEED, 4],
  [D.DRAW_ORIGIN_1, 12],
  [D.DRAW_ORIGIN_2, 13],
  [D.DRAW_AIM_1, 16],
  [D.DRAW_AIM_2, 15],
]
const GOALIE_ORDER: Order = [
  [D.DRAW_OFF_LINE, 5],
  [D.DRAW_ANGLE, 17],
  [D.DRAW_LEAK, 10],
  [D.DRAW_READING, 8],
  [D.DRAW_VIGOUR, 7],
  [D.DRAW_TURN, 14],
  [D.DRAW_DEPTH, 11],
  [D.DRAW_BLOCK_LEAD, 21],
  [D.DRAW_LIMB, 22],
  [D.DRAW_LIMB + 1, 23],
  [D.DRAW_LIMB + 2, 24],
  [D.DRAW_LIMB + 3, 25],
  [D.DRAW_LIMB + 4, 26],
  [D.DRAW_LIMB + 5, 27],
  [D.DRAW_REACTION, 28],
  [D.DRAW_BLOCK, 29],
]
/** Legs whose speed and wait have dimensions. */
const LEGS_SPREAD = 2
const PLAY_ORDER: Order = [
  [DRAW_LEG, 6],
  [DRAW_LEG + 1, 9],
  [DRAW_LEG + 2, 18],
  [DRAW_LEG + 3, 19],
  [DRAW_LOST, 20],
]
/** Dimensions of the points. */
export const SPREAD_DIMENSIONS = LANDING_STRIDE + SHOOTER_ORDER.length + GOALIE_ORDER.length + PLAY_ORDER.length

/** One thread's points for one scene. */
export interface SpreadDraws {
  readonly sequence: ScrambledSequence
  readonly grid: LandingGrid
  /** [capacity x LANDING_STRIDE] */
  readonly landings: Float64Array
  /** Cosine and sine of the turn between the errors off the line and in angle. */
  readonly standing: readonly [cosine: number, sine: number]
}

/** What a batch of shots lends to be filled. */
interface DrawnBatch {
  readonly replicate: number
  readonly first: number
  readonly count: number
  readonly stratum: Uint32Array
  readonly uniforms: Float64Array
  readonly goalie: Float64Array
  readonly play: Float64Array
}

export function spreadDraws(scene: Scene, capacity: number): SpreadDraws {
  return {
    sequence: scrambledSequence(SPREAD_DIMENSIONS),
    grid: landingGrid(scene.strata),
    landings: new Float64Array(capacity * LANDING_STRIDE),
    standing: standingOf(scene),
  }
}

/** Draws of a shot that have no dimension: of legs past the second, of whoever is on the way, of rebounds. */
export function drawsWithoutDimension({ play, traffic, rebound }: Pick<Scene, "play" | "traffic" | "rebound">): number {
  let legs = 0
  for (let b = 0; b < play[BRANCH_COUNT]!; b++) legs = Math.max(legs, play[branchRow(b) + LEG_COUNT]!)
  const ofLegs = play[PLAY_MOVES] === 0 ? 0 : 2 * Math.max(0, legs - LEGS_SPREAD)
  return ofLegs + (traffic.length > 0 ? PUCK_DRAWS : 0) + (rebound.length > 0 ? REBOUND_DRAWS : 0)
}

/** The strata of a batch's shots and the uniforms of its streams; that of the play only where something `moves`. */
export function spreadBatch(spread: SpreadDraws, key: SeedKey, batch: DrawnBatch, moves: boolean): void {
  const { sequence, landings } = spread
  const { replicate, first, count } = batch
  openReplicate(sequence, key, replicate, first + count)
  for (let d = 0; d < LANDING_STRIDE; d++) fillCoordinates(sequence, d, first, count, landings, d, LANDING_STRIDE)
  fillOrder(sequence, SHOOTER_ORDER, first, count, batch.uniforms, D.SHOOTER_DRAWS)
  chooseLandings(spread.grid, landings, count, batch.stratum, batch.uniforms)
  fillOrder(sequence, GOALIE_ORDER, first, count, batch.goalie, D.GOALIE_DRAWS)
  if (!moves) return
  fillUniforms(key, replicate, PLAY, first, count, PLAY_DRAWS, batch.play)
  fillOrder(sequence, PLAY_ORDER, first, count, batch.play, PLAY_DRAWS)
}

function fillOrder(
  sequence: ScrambledSequence,
  order: Order,
  first: number,
  count: number,
  out: Float64Array,
  stride: number,
): void {
  for (const [draw, dimension] of order) fillCoordinates(sequence, dimension, first, count, out, draw, stride)
}

/**
 * Off the line and off in angle, a goalie stands to one side of the shot alike, and a save hangs on the sum. Both are
 * normal: turned by the angle of their spreads, in the mean of the poses, one new normal is the sum and the other nearly
 * nothing.
 */
function standingOf({ poses }: Scene): readonly [number, number] {
  let offLine = 0
  let inAngle = 0
  for (const { numbers } of poses) {
    offLine += numbers[OFF_LINE_ERROR]!
    inAngle += numbers[ANGLE_ERROR]! * numbers[DEPTH]!
  }
  const length = Math.hypot(offLine, inAngle)
  return length > 0 ? [offLine / length, inAngle / length] : [1, 0]
}

/** Turns the standard normals of a batch's errors off the line and in angle. */
export function turnStanding({ standing }: SpreadDraws, count: number, draws: Float64Array): void {
  const [cosine, sine] = standing
  for (let i = 0; i < count; i++) {
    const at = i * D.GOALIE_DRAWS
    const sum = draws[at + D.DRAW_OFF_LINE]!
    const rest = draws[at + D.DRAW_ANGLE]!
    draws[at + D.DRAW_OFF_LINE] = cosine * sum - sine * rest
    draws[at + D.DRAW_ANGLE] = sine * sum + cosine * rest
  }
}
