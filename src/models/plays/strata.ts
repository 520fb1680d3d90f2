import { betweenPosts } from "../../sim/clear-mouth.ts"
import { highestClear } from "../../sim/iron.ts"
import type { Openness } from "../../sim/mouth-grid.ts"
import { BRANCH, ORIGIN, ORIGIN_KIND, SPOT, STRATUM_STRIDE, type Strata } from "../../sim/strata.ts"
import type { Metres } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH, MOUTH_HEIGHT, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import type { ScoringMouth } from "../shooter/aim-cells.ts"
import { type ShotScene, shotWays } from "../shooter/ways.ts"
import { allot } from "./allotment.ts"
import type { PlayBranch } from "./branch.ts"
import { type OriginCell, originCells } from "./origin-cells.ts"
import { worldOf } from "./world.ts"

/** Strata of a play, with the labels of the places that their SPOT column counts. */
export interface PlayStrata {
  readonly strata: Strata
  readonly spots: readonly string[]
}

/** A batch names the stratum of each shot in sixteen bits. */
const MOST_STRATA = 65_535

/** What a shooter in one branch of the play sees of a pose. */
export type OpennessIn = (branch: number) => Openness

/**
 * The strata of a play: in every branch every origin cell with every aim cell, and the hurried shot of every origin
 * cell. All settings must share what is not the goalie's; pose p of the shares is settings p. `openness` is asked only
 * when the shooter reads the goalie, once for each branch, pose and origin cell. `shares` is [poses x branches]: how often
 * each branch is played against each pose. Strata that no pose meets are left out.
 * @throws RangeError when there are no settings, or more strata than a batch can name
 */
export function buildStrata(
  settingsOfPoses: readonly Settings[],
  branches: readonly PlayBranch[],
  shares: Float64Array,
  openness: OpennessIn,
): PlayStrata {
  if (settingsOfPoses.length === 0)
    throw new RangeError("Cannot build the strata as the number of poses must be > 0: current value is 0")
  const catches = settingsOfPoses.map((pose) => pose.choices["goalie.catches"])
  const { places, spots } = placesOf(branches)
  const joined = branches.flatMap(({ settings }, index) => {
    if (settingsOfPoses.every((_, pose) => shares[pose * branches.length + index] === 0)) return []
    const scene = { settings, mouthFrom: scoringMouth(settings), catches, openness: openness(index) }
    const { cells, first } = places[index]!
    return [inBranch(joinOrigins(scene, cells), index, first, shares, branches.length)]
  })
  return { strata: keepMet(joinBranches(joined)), spots }
}

/** Labels of the places of a play, as the SPOT column of its strata counts them. */
export function spotsOf(branches: readonly PlayBranch[]): readonly string[] {
  return placesOf(branches).spots
}

/** Where the shots of each branch come from, with the number of its first place among those of all. */
function placesOf(branches: readonly PlayBranch[]) {
  const spots: string[] = []
  const firstOf = new Map<string, number>()
  const places = branches.map((branch) => {
    const found = originCells(branch.settings)
    // branches of one name are one way to play, whose places are counted together
    const first = firstOf.get(branch.name) ?? spots.length
    firstOf.set(branch.name, first)
    for (const label of first === spots.length ? found.spots : [])
      spots.push(branches.length === 1 ? label : spotName(branch, found.spots, label))
    return { cells: found.cells, first }
  })
  return { places, spots }
}

function spotName({ name }: PlayBranch, spots: readonly string[], label: string): string {
  return spots.length === 1 ? name : `${name}, ${label}`
}

/** Marks the strata of a branch, counts its spots after those of the branches before, and weighs its shares. */
function inBranch(joined: Joined, branch: number, firstSpot: number, shares: Float64Array, branches: number): Joined {
  const { table, share, poses, count } = joined
  for (let i = 0; i < count; i++) {
    table[i * STRATUM_STRIDE + BRANCH] = branch
    table[i * STRATUM_STRIDE + SPOT]! += firstSpot
  }
  if (branches > 1)
    for (let pose = 0; pose < poses; pose++)
      for (let i = 0; i < count; i++) share[pose * count + i]! *= shares[pose * branches + branch]!
  return joined
}

/** The strata of all branches, one branch after the other. */
function joinBranches(joined: readonly Joined[]): Joined {
  if (joined.length === 1) return joined[0]!
  const poses = joined[0]!.poses
  const count = joined.reduce((sum, one) => sum + one.count, 0)
  const table = new Float64Array(count * STRATUM_STRIDE)
  const share = new Float64Array(poses * count)
  let first = 0
  for (const one of joined) {
    table.set(one.table, first * STRATUM_STRIDE)
    for (let pose = 0; pose < poses; pose++)
      share.set(one.share.subarray(pose * one.count, (pose + 1) * one.count), pose * count + first)
    first += one.count
  }
  return { table, share, poses, count }
}

/**
 * Where the middle of a puck from (x, y) may cross the goal plane and score: between the posts and under the bar as they
 * stand from there, by straight lines. A place so far round that no puck gets in without touching iron has the mouth as
 * from straight ahead.
 */
export function scoringMouth(settings: Settings): (x: Metres, y: Metres) => ScoringMouth {
  const world = worldOf(settings)
  const bottom = world[PUCK_HALF_THICKNESS]!
  const height = world[MOUTH_HEIGHT]!
  const release = settings.quantities["shooter.release_height"]
  const half = world[MOUTH_HALF_WIDTH]! - world[PUCK_RADIUS]!
  return (x, y) => {
    const [right, left] = betweenPosts(world, x, y)
    const top = highestClear(world, (height - release) / x)
    if (right < left && bottom < top) return { right, left, bottom, top }
    return { right: -half, left: half, bottom, top: height - bottom }
  }
}

/** Table and shares over all origin cells, before any stratum is left out. */
interface Joined {
  readonly table: Float64Array
  readonly share: Float64Array
  readonly poses: number
  readonly count: number
}

/** The ways to shoot of every origin cell, one after the other, weighed by the cell's share of the shots. */
function joinOrigins(scene: ShotScene, cells: readonly OriginCell[]): Joined {
  const ways = cells.map((cell) => shotWays(scene, cell.x, cell.y))
  const poses = scene.catches.length
  const count = ways.reduce((sum, way) => sum + way.count, 0)
  const table = new Float64Array(count * STRATUM_STRIDE)
  const share = new Float64Array(poses * count)
  let first = 0
  for (const [index, cell] of cells.entries()) {
    const way = ways[index]!
    table.set(way.table, first * STRATUM_STRIDE)
    for (let i = 0; i < way.count; i++) fillOrigin(table, (first + i) * STRATUM_STRIDE, cell)
    for (let pose = 0; pose < poses; pose++)
      for (let i = 0; i < way.count; i++)
        share[pose * count + first + i] = cell.weight * way.share[pose * way.count + i]!
    first += way.count
  }
  return { table, share, poses, count }
}

function fillOrigin(table: Float64Array, row: number, cell: OriginCell): void {
  table[row + ORIGIN_KIND] = cell.kind
  table.set(cell.shape, row + ORIGIN)
  table[row + SPOT] = cell.spot
}

/** Leaves out the strata that no pose meets and allots shots to the others. */
function keepMet({ table, share, poses, count }: Joined): Strata {
  const kept: number[] = []
  for (let i = 0; i < count; i++) {
    let met = false
    for (let pose = 0; pose < poses; pose++) met ||= share[pose * count + i]! > 0
    if (met) kept.push(i)
  }
  if (kept.length > MOST_STRATA)
    throw new RangeError(
      `Cannot build the strata as their number must be <= ${MOST_STRATA}: current value is ${kept.length} (name fewer or smaller places)`,
    )
  const keptTable = new Float64Array(kept.length * STRATUM_STRIDE)
  const keptShare = new Float64Array(poses * kept.length)
  for (const [to, from] of kept.entries()) {
    keptTable.set(table.subarray(from * STRATUM_STRIDE, (from + 1) * STRATUM_STRIDE), to * STRATUM_STRIDE)
    for (let pose = 0; pose < poses; pose++) keptShare[pose * kept.length + to] = share[pose * count + from]!
  }
  return { count: kept.length, table: keptTable, share: keptShare, allotment: allot(keptShare, poses) }
}
