import type { Probability } from "../../sim/units.ts"
import { aimCells, aimShares } from "./aim-cells.ts"
import { expectedGoals, landingTable, openingGrid, readsFrom, softmax } from "./reading.ts"
import type { ShotScene } from "./ways.ts"

/**
 * What an aimed shot from (x, y) promises against each pose: the goal probability expected from the openings seen and
 * the shooter's own error, over the aim cells as such a shooter picks them. The goalie's reaction has no part in it, nor
 * has any draw of a shot.
 */
export function promisedGoals(scene: ShotScene, x: number, y: number): Probability[] {
  const { settings, catches } = scene
  const mouth = scene.mouthFrom(x, y)
  const place = { x, y, z: settings.quantities["shooter.release_height"] }
  const cells = aimCells(settings, mouth)
  const grid = openingGrid(mouth)
  const table = landingTable(settings, place, cells, grid)
  const from = readsFrom(settings, place)
  const temperature = settings.quantities["shooter.temperature"]
  return catches.map((hand, pose) => {
    const expected = expectedGoals(scene.openness(pose, from.x, from.y, from.z, grid, x, y), table)
    const picked =
      settings.choices["shooter.aim"] === "reads"
        ? softmax(expected, temperature, table.allowed)
        : aimShares(settings, hand)
    return expected.reduce((sum, one, cell) => sum + picked[cell]! * one, 0)
  })
}
