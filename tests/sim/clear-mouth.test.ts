import { describe, expect, test } from "vitest"
import { goalkeeping } from "../../src/sim/answer.ts"
import { betweenPosts, clearCells } from "../../src/sim/clear-mouth.ts"
import { ON_GOAL } from "../../src/sim/fate.ts"
import { fly } from "../../src/sim/flight.ts"
import { crossMouth } from "../../src/sim/iron.ts"
import { type MouthGrid, mouthGrid } from "../../src/sim/mouth-grid.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import { flyTo, type MapShot } from "../../src/sim/reach-map.ts"
import { MOUTH_HALF_WIDTH, MOUTH_HEIGHT } from "../../src/sim/world.ts"
import { compileScene, playing } from "../engine/scenes.ts"

const KEEPER = goalkeeping(compileScene([playing({})]))
const WORLD = KEEPER.scene.world

/** A shot from this far and this many degrees to the left. */
function shotFrom(distance: number, degrees: number): MapShot {
  const angle = (degrees * Math.PI) / 180
  return { x: distance * Math.cos(angle), y: distance * Math.sin(angle), z: 0.02, speed: 30, read: 0 }
}

/** Cells whose middle a puck crosses without touching iron, counted shot by shot. */
function counted(shot: MapShot, grid: MouthGrid): number {
  const path = new Float64Array(PATH_STRIDE)
  const crossing = new Float64Array(3)
  let clear = 0
  for (let row = 0; row < grid.rows; row++)
    for (let column = 0; column < grid.columns; column++) {
      const y = 0.5 * (grid.y[column]! + grid.y[column + 1]!)
      flyTo(KEEPER, shot, y, 0.5 * (grid.z[row]! + grid.z[row + 1]!), path)
      if (crossMouth(WORLD, path, 0, crossing) === ON_GOAL) clear++
    }
  return clear
}

describe("the clear part of the mouth", () => {
  // seen to fail: the radii laid off along the goal line instead of square to the path
  test("ends beside each post where a puck begins to touch it, from any side", () => {
    const path = new Float64Array(PATH_STRIDE)
    const crossing = new Float64Array(3)
    for (const degrees of [0, 35, -60, 80])
      for (const [side, place] of betweenPosts(WORLD, shotFrom(6, degrees).x, shotFrom(6, degrees).y).entries())
        for (const [step, clears] of [
          [1e-6, side === 0],
          [-1e-6, side === 1],
        ] as const) {
          const { x, y } = shotFrom(6, degrees)
          fly(WORLD, x, y, 0.3, Math.atan2(place + step - y, -x), 0, 40, 12, path, 0)
          expect(crossMouth(WORLD, path, 0, crossing) === ON_GOAL, `${degrees} degrees, side ${side}`).toBe(clears)
        }
  })

  // seen to fail: the slope taken along the path instead of out from the goal; the whole mouth between the posts
  test.each([0, 60, 80, -80])("has as many cells as shots to them clear the iron, from %d degrees", (degrees) => {
    const grid = mouthGrid(WORLD[MOUTH_HALF_WIDTH]!, 0.0127, WORLD[MOUTH_HEIGHT]!, 64, 48)
    const shot = shotFrom(5, degrees)
    const clear = clearCells(KEEPER, shot, grid).reduce((sum, one) => sum + one, 0)
    expect(clear).toBe(counted(shot, grid))
    expect(clear / (64 * 48)).toBeLessThan(Math.abs(degrees) > 70 ? 0.7 : 0.97)
    expect(clear).toBeGreaterThan(0)
  })

  test("is nothing from on or almost on the goal line", () => {
    for (const x of [0, 0.05, 0.2]) {
      const [right, left] = betweenPosts(WORLD, x, 5)
      expect(right).toBeGreaterThan(left)
    }
  })
})
