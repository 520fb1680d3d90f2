import { describe, expect, test } from "vitest"
import { goalkeeping } from "../../src/sim/answer.ts"
import { mouthGrid } from "../../src/sim/mouth-grid.ts"
import type { Scene } from "../../src/sim/pose.ts"
import { integrateSaves, whyNoQuadrature } from "../../src/sim/quadrature.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import * as T from "../../src/sim/tally.ts"
import { MOUTH_HALF_WIDTH, MOUTH_HEIGHT, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../src/sim/world.ts"
import { apart, compileScene, EXACT, fired, playing, saveRate } from "./scenes.ts"

/** Independent errors: both arms' standard errors, as if the shots were not shared: wider than the truth. */
function gap(a: { mean: number; se: number }, b: { mean: number; se: number }): number {
  return apart(a, b)
}

function grid(scene: Scene, columns: number, rows: number) {
  const w = scene.world
  const half = w[MOUTH_HALF_WIDTH]! - w[PUCK_RADIUS]!
  return mouthGrid(half, w[PUCK_HALF_THICKNESS]!, w[MOUTH_HEIGHT]! - w[PUCK_HALF_THICKNESS]!, columns, rows)
}

describe("estimators", () => {
  // seed KEY, n = 1,024 per arm, |z| < 4 on independent errors: false alarm well under 1 in 16,000 as shots are shared;
  // seen to fail with the drop's lead left out of the solver of saving reactions
  test("the plain referee and the conditional estimator agree, in tight and from far, reacting and blocking", () => {
    for (const distance of [4, 9])
      for (const answer of ["react", "block"]) {
        const settings = playing({ "play.distance": distance, "goalie.depth": 1.1 }, { "goalie.answer": answer })
        const scene = compileScene([settings])
        const conditional = saveRate(fired(scene, 1024))
        const plain = saveRate(fired(scene, 1024, decidePlain))
        expect(gap(conditional, plain), `${distance} m, ${answer}`).toBeLessThan(4)
      }
  })

  // quadrature error: the difference between the grid and one of half the cells' size, below
  test("the reach map integrated against the landings gives the conditional save rate where it applies", () => {
    for (const [distance, angle] of [
      [5, 0],
      [11, 0.6],
    ] as const) {
      const scene = compileScene([
        playing({ "play.distance": distance, "play.angle": angle, "goalie.depth": 1.1, ...EXACT }),
      ])
      const keeper = goalkeeping(scene)
      expect(whyNoQuadrature(keeper, scene.poses[0]!)).toBeNull()
      const coarse = integrateSaves(keeper, 0, grid(scene, 26, 18)).saveRate
      const fine = integrateSaves(keeper, 0, grid(scene, 37, 25)).saveRate
      const sampled = saveRate(fired(scene, 16_384), 0, T.CLEAR_SAVED, T.CLEAR_ON_GOAL)
      const own = Math.abs(fine - coarse)
      expect(own).toBeLessThan(0.01)
      expect(Math.abs(sampled.mean - fine)).toBeLessThan(4 * sampled.se + 2 * own)
    }
  })

  test("the quadrature says where it does not apply", () => {
    const varied = compileScene([playing({})])
    expect(whyNoQuadrature(goalkeeping(varied), varied.poses[0]!)).toContain("varies")
    const scene = compileScene([playing(EXACT)])
    expect(whyNoQuadrature(goalkeeping(scene), scene.poses[0]!)).toBeNull()
  })
})
