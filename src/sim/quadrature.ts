import type { Goalkeeping } from "./answer.ts"
import { aimAt, LAUNCH_AZIMUTH, LAUNCH_TANGENT } from "./launch.ts"
import type { MouthGrid } from "./mouth-grid.ts"
import { PATH_STRIDE } from "./path.ts"
import { PLAY_MOVES } from "./play/course.ts"
import * as P from "./pose.ts"
import { cumulativeNormal, invertNormal } from "./random/normal.ts"
import { sampleTruncatedNormal } from "./random/truncated-normal.ts"
import { eachCell, flyOver, flyTo, type MapShot, standExactly, stopProbability } from "./reach-map.ts"
import * as S from "./strata.ts"
import type { Metres } from "./units.ts"

/**
 * Save rate of one pose without sampling: the reach map integrated against where shots land. The shares of landing
 * places come from the aim and the angular errors alone, cell by cell, as differences of the normal's distribution.
 * It covers scenes of fixed spots without position noise; elsewhere it is not applicable and says so.
 */
export interface Quadrature {
  /** Share of attempts that clear the iron and would go in, and of those the share stopped. */
  readonly clearOnGoal: number
  readonly saveRate: number
}

/** Equal shares over which the speed and the aimed place are integrated. */
const SPEED_NODES = 5
const AIM_NODES = 5
/** A cell with less than this share of the landings is not worth a path. */
const NEGLIGIBLE = 1e-12
/** Launch angle under the one that just skims the ice at the line, for pucks that come along the ice, rad. */
const ALONG_ICE = 0.02

/** Why the quadrature does not apply to a pose of this scene, or null when it does. */
export function whyNoQuadrature(g: Goalkeeping, pose: P.Pose): string | null {
  const n = pose.numbers
  if (g.scene.traffic.length > 0) return "someone stands between puck and goalie"
  if (g.scene.play[PLAY_MOVES] === 1) return "the goalie comes from another place"
  if (n[P.DEPTH_ERROR] !== 0 || n[P.OFF_LINE_ERROR] !== 0 || n[P.ANGLE_ERROR] !== 0 || n[P.TURN_ERROR] !== 0)
    return "the goalie's position varies from shot to shot"
  const { table, count } = g.scene.strata
  for (let s = 0; s < count; s++) {
    const o = s * S.STRATUM_STRIDE + S.ORIGIN
    if (table[s * S.STRATUM_STRIDE + S.ORIGIN_KIND] !== S.TRIANGLE) return "shots come from an area"
    for (let i = 2; i < 6; i++) if (table[o + i] !== table[o + (i % 2)]) return "shots come from an area"
  }
  return null
}

/**
 * The save rate of pose `p` among shots that clear the iron. `grid` covers the places where a puck's centre clears all
 * iron; its cells' size sets the error (halve them to see it).
 */
export function integrateSaves(g: Goalkeeping, p: number, grid: MouthGrid): Quadrature {
  const { strata, poses } = g.scene
  let onGoal = 0
  let saved = 0
  const done = new Set<number>()
  for (let s = 0; s < strata.count; s++) {
    if (done.has(s)) continue
    // strata of one place and one speed share their paths
    const alike = strataAlike(strata, s)
    for (const other of alike) done.add(other)
    for (let v = 0; v < SPEED_NODES; v++) {
      const shot = shotOf(strata.table, s * S.STRATUM_STRIDE, (v + 0.5) / SPEED_NODES)
      standExactly(g, poses[p]!, shot.x, shot.y)
      const landing = new Float64Array(grid.columns * (grid.rows + 1))
      for (const other of alike)
        addLanding(g, strata, other, strata.share[p * strata.count + other]! / SPEED_NODES, shot, grid, landing)
      const path = new Float64Array(PATH_STRIDE)
      for (let cell = 0; cell < landing.length; cell++) onGoal += landing[cell]!
      eachCell(grid, (cell, y, z) => {
        const share = landing[grid.columns + cell]!
        if (share > NEGLIGIBLE) saved += share * stopProbability(g, poses[p]!, shot, path, flyTo(g, shot, y, z, path))
      })
      for (let column = 0; column < grid.columns; column++) {
        if (landing[column]! <= NEGLIGIBLE) continue
        const y = 0.5 * (grid.y[column]! + grid.y[column + 1]!)
        saved += landing[column]! * stopProbability(g, poses[p]!, shot, path, flyLow(g, shot, y, grid.z[0]!, path))
      }
    }
  }
  return { clearOnGoal: onGoal, saveRate: saved / onGoal }
}

/** Strata that share place, speed and shot type with stratum s (and differ in aim). */
function strataAlike(strata: S.Strata, s: number): number[] {
  const columns = [S.ORIGIN, S.ORIGIN + 1, S.RELEASE_HEIGHT, S.SPEED_MEAN, S.SPEED_SD, S.SPEED_LEAST, S.EARLY_READ]
  const alike: number[] = []
  for (let other = s; other < strata.count; other++)
    if (columns.every((c) => strata.table[other * S.STRATUM_STRIDE + c] === strata.table[s * S.STRATUM_STRIDE + c]))
      alike.push(other)
  return alike
}

function shotOf(table: Float64Array, row: number, u: number): MapShot {
  const speed = sampleTruncatedNormal(u, table[row + S.SPEED_MEAN]!, table[row + S.SPEED_SD]!)
  return {
    x: table[row + S.ORIGIN]!,
    y: table[row + S.ORIGIN + 1]!,
    z: table[row + S.RELEASE_HEIGHT]!,
    speed: Math.max(speed, table[row + S.SPEED_LEAST]!),
    read: table[row + S.EARLY_READ]!,
  }
}

/** Adds a stratum's landing shares: row 0 comes along the ice, row r + 1 is the grid's row r. */
function addLanding(
  g: Goalkeeping,
  strata: S.Strata,
  s: number,
  weight: number,
  shot: MapShot,
  grid: MouthGrid,
  landing: Float64Array,
): void {
  if (weight <= 0) return
  const row = s * S.STRATUM_STRIDE
  const table = strata.table
  const edges = edgeAngles(g, shot, grid)
  const nodes = aimNodes(table, row)
  const path = new Float64Array(PATH_STRIDE)
  const aimed = new Float64Array(2)
  for (const [y, z] of nodes) {
    aimAt(g.scene.world, shot.x, shot.y, shot.z, y, z, shot.speed, table[row + S.STEEPEST_AIM]!, path, 0, aimed, 0)
    const elevation = Math.atan(aimed[LAUNCH_TANGENT]!)
    const azimuth = turned(aimed[LAUNCH_AZIMUTH]!)
    for (let column = 0; column < grid.columns; column++) {
      const across =
        share(edges.azimuth[column]! - azimuth, table[row + S.ERROR_AZIMUTH]!) -
        share(edges.azimuth[column + 1]! - azimuth, table[row + S.ERROR_AZIMUTH]!)
      const size = (weight * Math.abs(across)) / nodes.length
      if (size < NEGLIGIBLE) continue
      let below = 0
      for (let r = 0; r <= grid.rows; r++) {
        const above = share(edges.elevation[r * grid.columns + column]! - elevation, table[row + S.ERROR_ELEVATION]!)
        landing[r * grid.columns + column] = landing[r * grid.columns + column]! + size * (above - below)
        below = above
      }
    }
  }
}

/** Launch angles at the grid's edges: azimuth for each edge across, elevation for each edge in height and column. */
function edgeAngles(
  g: Goalkeeping,
  shot: MapShot,
  grid: MouthGrid,
): { azimuth: Float64Array; elevation: Float64Array } {
  const azimuth = grid.y.map((y) => turned(Math.atan2(y - shot.y, -shot.x)))
  const elevation = new Float64Array((grid.rows + 1) * grid.columns)
  const path = new Float64Array(PATH_STRIDE)
  const aimed = new Float64Array(2)
  for (let r = 0; r <= grid.rows; r++)
    for (let column = 0; column < grid.columns; column++) {
      const y = 0.5 * (grid.y[column]! + grid.y[column + 1]!)
      aimAt(g.scene.world, shot.x, shot.y, shot.z, y, grid.z[r]!, shot.speed, 10, path, 0, aimed, 0)
      elevation[r * grid.columns + column] = Math.atan(aimed[LAUNCH_TANGENT]!)
    }
  return { azimuth, elevation }
}

/** Azimuths about pi, so that neighbours straight ahead do not jump to minus pi. */
function turned(azimuth: number): number {
  return azimuth < 0 ? azimuth + 2 * Math.PI : azimuth
}

/** Middles of equal shares of a stratum's aim. */
function aimNodes(table: Float64Array, row: number): [Metres, Metres][] {
  const a = row + S.AIM
  const normal = table[row + S.AIM_KIND] === S.AIM_NORMAL
  const count =
    !normal && table[a] === table[a + 1] && table[a + 2] === table[a + 3] ? 1 : normal ? 2 * AIM_NODES : AIM_NODES
  const nodes: [Metres, Metres][] = []
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      const u1 = (i + 0.5) / count
      const u2 = (j + 0.5) / count
      if (normal)
        nodes.push([
          table[a]! + table[a + 1]! * invertNormal(u1),
          Math.max(0, table[a + 2]! + table[a + 3]! * invertNormal(u2)),
        ])
      else
        nodes.push([table[a]! + u1 * (table[a + 1]! - table[a]!), table[a + 2]! + u2 * (table[a + 3]! - table[a + 2]!)])
    }
  return nodes
}

/** Normal distribution function of an angle; a step where there is no error. */
function share(angle: number, sd: number): number {
  return sd > 0 ? cumulativeNormal(angle / sd) : angle > 0 ? 1 : angle < 0 ? 0 : 0.5
}

/** A puck that meets the ice on its way and comes along it. */
function flyLow(g: Goalkeeping, shot: MapShot, y: Metres, floor: Metres, path: Float64Array): Metres {
  const aimed = new Float64Array(2)
  aimAt(g.scene.world, shot.x, shot.y, shot.z, y, floor, shot.speed, 10, path, 0, aimed, 0)
  return flyOver(g, shot, aimed[LAUNCH_AZIMUTH]!, Math.atan(aimed[LAUNCH_TANGENT]!) - ALONG_ICE, path)
}
