import type { MouthGrid } from "../../sim/mouth-grid.ts"
import { cumulativeNormal } from "../../sim/random/normal.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import type { AimError } from "./accuracy.ts"

/** Where a shot leaves from: the puck's centre at release, rink frame. */
export interface ReleasePlace {
  readonly x: Metres
  readonly y: Metres
  readonly z: Metres
}

/** Horizontal distance from a place to the point of the goal line at y. */
export function runTo(place: ReleasePlace, y: Metres): Metres {
  return Math.hypot(place.x, y - place.y)
}

/**
 * Chances that a shot aimed at (aimY, aimZ) of the goal plane lands in each column and in each row of a grid; the
 * chance of a cell is their product. The error is normal in azimuth and elevation, so the edges are taken as angles
 * from the release: that is the foreshortening. What strays below the mouth slides in along the ice (lowest row); what
 * strays past post or bar is in no cell. Straight lines stand for the curved flight: both angles shift alike.
 * `columns` and `rows` are filled from the given offsets.
 */
export function fillLanding(
  place: ReleasePlace,
  aim: { readonly y: Metres; readonly z: Metres; readonly error: AimError },
  grid: MouthGrid,
  out: { readonly columns: Float64Array; readonly rows: Float64Array; readonly index: number },
): void {
  // columns: edges as azimuths about the aimed one
  const azimuth = Math.atan2(aim.y - place.y, place.x)
  let below = chanceBelow(Math.atan2(grid.y[0]! - place.y, place.x) - azimuth, aim.error.azimuth)
  for (let column = 0; column < grid.columns; column++) {
    const upTo = chanceBelow(Math.atan2(grid.y[column + 1]! - place.y, place.x) - azimuth, aim.error.azimuth)
    out.columns[out.index * grid.columns + column] = upTo - below
    below = upTo
  }
  // rows: edges as elevations at the run to the aimed point; the lowest reaches down to the ice and beyond
  const run = runTo(place, aim.y)
  const elevation = Math.atan2(aim.z - place.z, run)
  below = 0
  for (let row = 0; row < grid.rows; row++) {
    const upTo = chanceBelow(Math.atan2(grid.z[row + 1]! - place.z, run) - elevation, aim.error.elevation)
    out.rows[out.index * grid.rows + row] = upTo - below
    below = upTo
  }
}

/** Chance that a normal error of this sd is below `deviation`; a perfect shooter has a step. */
function chanceBelow(deviation: number, sd: number): Probability {
  if (sd > 0) return cumulativeNormal(deviation / sd)
  return deviation > 0 ? 1 : 0
}
