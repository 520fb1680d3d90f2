import type { Openness } from "../../sim/mouth-grid.ts"
import {
  AIM,
  AIM_KIND,
  AIM_NORMAL,
  AIM_RECTANGLE,
  EARLY_READ,
  ERROR_AZIMUTH,
  ERROR_ELEVATION,
  HURRIED,
  RELEASE_HEIGHT,
  SHOT_TYPE,
  SPEED_LEAST,
  SPEED_MEAN,
  SPEED_SD,
  STEEPEST_AIM,
  STRATUM_STRIDE,
} from "../../sim/strata.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { type AimError, aimedError, hurriedError, hurriedShare } from "./accuracy.ts"
import { type AimCell, aimCells, aimShares, type ScoringMouth } from "./aim-cells.ts"
import { type ReleasePlace, runTo } from "./landing.ts"
import { landingTable, openingGrid, readShares, readsFrom } from "./reading.ts"
import { SHOT_NAMES, type ShotName } from "./shot-types.ts"
import { earlyRead, shotSpeed } from "./speed.ts"

/** The ways a shot can be from one place: rows of the shooter's columns, and how often each pose meets them. */
export interface ShotWays {
  readonly count: number
  /** [count x STRATUM_STRIDE] shooter's columns filled, the others zero; the last row is the hurried shot */
  readonly table: Float64Array
  /** [poses x count] share of each way, each row sums to 1 */
  readonly share: Float64Array
}

/** What the ways depend on beside the place: settings, the mouth as seen from it, the catching hand of each pose, and what is seen. */
export interface ShotScene {
  readonly settings: Settings
  readonly mouthFrom: (x: Metres, y: Metres) => ScoringMouth
  /** "left" or "right", by pose */
  readonly catches: readonly string[]
  readonly openness: Openness
}

/** All ways to shoot from (x, y): one for each aim cell, and the hurried one. */
export function shotWays(scene: ShotScene, x: Metres, y: Metres): ShotWays {
  const { settings } = scene
  const mouth = scene.mouthFrom(x, y)
  const place = { x, y, z: settings.quantities["shooter.release_height"] }
  const cells = aimCells(settings, mouth)
  const count = cells.length + 1
  const table = new Float64Array(count * STRATUM_STRIDE)
  for (const [i, cell] of cells.entries()) fillAimed(table, i * STRATUM_STRIDE, settings, place, cell)
  fillHurried(table, cells.length * STRATUM_STRIDE, settings, place)
  // hurried shots take their share first, the aimed ones divide what is left
  const hurried = hurriedShare(settings, runTo(place, 0))
  const share = new Float64Array(scene.catches.length * count)
  for (const [pose, aimed] of aimedShares(scene, mouth, place, cells).entries()) {
    for (let i = 0; i < cells.length; i++) share[pose * count + i] = (1 - hurried) * aimed[i]!
    share[pose * count + cells.length] = hurried
  }
  return { count, table, share }
}

/** Shares of the aim cells among aimed shots, for each pose. */
function aimedShares(
  scene: ShotScene,
  mouth: ScoringMouth,
  place: ReleasePlace,
  cells: readonly AimCell[],
): ArrayLike<Probability>[] {
  const { settings, catches } = scene
  if (settings.choices["shooter.aim"] !== "reads") return catches.map((hand) => aimShares(settings, hand))
  const grid = openingGrid(mouth)
  const table = landingTable(settings, place, cells, grid)
  const from = readsFrom(settings, place)
  const { "shooter.temperature": temperature, "shooter.reading": reading } = settings.quantities
  return catches.map((_, pose) => {
    // a blind shooter does not look
    const seen = reading === 0 ? [] : scene.openness(pose, from.x, from.y, from.z, grid, place.x, place.y)
    return readShares(seen, table, temperature, reading)
  })
}

function fillAimed(out: Float64Array, row: number, settings: Settings, place: ReleasePlace, cell: AimCell): void {
  const y = (cell.yLow + cell.yHigh) / 2
  const z = (cell.zLow + cell.zHigh) / 2
  const steepest = settings.quantities["shooter.steepest_aim"]
  const slope = Math.min(steepest, (z - place.z) / runTo(place, y))
  fillShot(out, row, settings, place, aimedError(settings, runTo(place, 0), slope))
  out[row + AIM_KIND] = AIM_RECTANGLE
  out.set([cell.yLow, cell.yHigh, cell.zLow, cell.zHigh], row + AIM)
}

function fillHurried(out: Float64Array, row: number, settings: Settings, place: ReleasePlace): void {
  const q = settings.quantities
  fillShot(out, row, settings, place, hurriedError(settings, runTo(place, 0)))
  out[row + AIM_KIND] = AIM_NORMAL
  const spread = [q["shooter.hurried_spread_across"], q["shooter.hurried_height"], q["shooter.hurried_spread_up"]]
  out.set([0, ...spread], row + AIM)
  out[row + HURRIED] = 1
}

/** Columns that aimed and hurried shots fill alike. */
function fillShot(out: Float64Array, row: number, settings: Settings, place: ReleasePlace, error: AimError): void {
  const speed = shotSpeed(settings, runTo(place, 0))
  out[row + RELEASE_HEIGHT] = place.z
  out[row + SPEED_MEAN] = speed.mean
  out[row + SPEED_SD] = speed.sd
  out[row + SPEED_LEAST] = speed.least
  out[row + ERROR_AZIMUTH] = error.azimuth
  out[row + ERROR_ELEVATION] = error.elevation
  out[row + STEEPEST_AIM] = settings.quantities["shooter.steepest_aim"]
  out[row + SHOT_TYPE] = SHOT_NAMES.indexOf(settings.choices["shooter.shot"] as ShotName)
  out[row + EARLY_READ] = earlyRead(settings)
}
