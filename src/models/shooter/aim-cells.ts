import { gridBetween } from "../../sim/mouth-grid.ts"
import type { Metres } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"

/** Where the middle of a puck shot from one place may cross the goal plane and score: between the posts as seen from there. */
export interface ScoringMouth {
  /** From here at the goalie's right to there at the goalie's left. */
  readonly right: Metres
  readonly left: Metres
  readonly bottom: Metres
  readonly top: Metres
}

/** A rectangle of the goal plane that shots are aimed at, uniformly; zero size makes a point. */
export interface AimCell {
  readonly yLow: Metres
  readonly yHigh: Metres
  readonly zLow: Metres
  readonly zHigh: Metres
}

/** Columns and rows of the grid a reading shooter picks from. */
export const READ_COLUMNS = 10
export const READ_ROWS = 6

/** The cells the settings' aim policy may pick, the same for every goalie. */
export function aimCells(settings: Settings, mouth: ScoringMouth): AimCell[] {
  switch (settings.choices["shooter.aim"]) {
    case "point":
      return [pointCell(settings.quantities["shooter.aim_y"], settings.quantities["shooter.aim_z"])]
    case "corners":
      return cornerCells(settings.quantities["shooter.corner_inset"], mouth)
    case "zones":
      return zoneCells(settings, mouth)
    default:
      return readCells(mouth)
  }
}

function pointCell(y: Metres, z: Metres): AimCell {
  return { yLow: y, yHigh: y, zLow: z, zHigh: z }
}

/** Four points: low right, low left, high right, high left, as the goalie sees them. */
function cornerCells(inset: Metres, mouth: ScoringMouth): AimCell[] {
  // an inset wider than half the mouth meets in the middle
  const middle = (mouth.left + mouth.right) / 2
  const y = Math.max(0, (mouth.left - mouth.right) / 2 - inset)
  const low = Math.min(mouth.bottom + inset, (mouth.bottom + mouth.top) / 2)
  const high = mouth.bottom + mouth.top - low
  const [right, left] = [middle - y, middle + y]
  return [pointCell(right, low), pointCell(left, low), pointCell(right, high), pointCell(left, high)]
}

/** What is aimed at of a zone that a post hides, m (an assumption): as near to it as the puck gets by. */
const STRIP: Metres = 0.02

/**
 * Six rectangles that tile the mouth, the middle ones about the middle of the net; one that lies behind a post is a strip
 * along the edge of what is seen: low right, low middle, low left, high right, high middle, high left. */
function zoneCells(settings: Settings, mouth: ScoringMouth): AimCell[] {
  const split = Math.min(settings.quantities["shooter.zone_low_height"], mouth.top)
  const inner = settings.quantities["shooter.zone_middle_width"] / 2
  const strip = Math.min(STRIP, (mouth.left - mouth.right) / 4)
  const seen = (y: Metres): Metres => Math.max(mouth.right + strip, Math.min(mouth.left - strip, y))
  const across = [mouth.right, seen(-inner), seen(inner), mouth.left]
  const up = [mouth.bottom, split, mouth.top]
  return tile(across, up)
}

function readCells(mouth: ScoringMouth): AimCell[] {
  const grid = gridBetween(mouth.right, mouth.left, mouth.bottom, mouth.top, READ_COLUMNS, READ_ROWS)
  return tile(grid.y, grid.z)
}

/** Rectangles between neighbouring edges, lowest row first, the goalie's right first. */
function tile(across: ArrayLike<Metres>, up: ArrayLike<Metres>): AimCell[] {
  const cells: AimCell[] = []
  for (let row = 0; row + 1 < up.length; row++)
    for (let column = 0; column + 1 < across.length; column++)
      cells.push({ yLow: across[column]!, yHigh: across[column + 1]!, zLow: up[row]!, zHigh: up[row + 1]! })
  return cells
}

/**
 * Shares of the cells for the policies that do not look at the goalie. Zones are named from the goalie: who catches
 * left has the glove side at +y.
 */
export function aimShares(settings: Settings, catches: string): Float64Array {
  const q = settings.quantities
  switch (settings.choices["shooter.aim"]) {
    case "point":
      return Float64Array.of(1)
    case "corners": {
      const low = q["shooter.corner_low_share"] / 2
      return Float64Array.of(low, low, 0.5 - low, 0.5 - low)
    }
    default: {
      const glove = [q["shooter.zone_low_glove"], q["shooter.zone_high_glove"]] as const
      const blocker = [q["shooter.zone_low_blocker"], q["shooter.zone_high_blocker"]] as const
      const [left, right] = catches === "left" ? [glove, blocker] : [blocker, glove]
      const five = q["shooter.zone_five_hole"]
      const middle = q["shooter.zone_middle"]
      return normalised(Float64Array.of(right[0], five, left[0], right[1], middle, left[1]))
    }
  }
}

/** @throws RangeError when every weight is zero */
function normalised(weights: Float64Array): Float64Array {
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  if (!(total > 0))
    throw new RangeError(
      `Cannot aim at zones as the sum of the shooter.zone weights must be > 0: current value is ${total}`,
    )
  return weights.map((weight) => weight / total)
}
