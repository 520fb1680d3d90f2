import { linearRegression, sampleCorrelation } from "simple-statistics"
import { expect, test } from "vitest"
import { RK4_ORDER, rk4Step, rk4Work } from "../../src/sim/integrate.ts"

/** Position and speed of a puck slowed by drag alone, dv/dt = -k v |v|. */
function fly(k: number, v0: number, t: number, steps: number): number {
  const state = new Float64Array([0, v0])
  const work = rk4Work(2)
  for (let step = 0; step < steps; step++)
    rk4Step(
      (out, _t, s) => {
        out[0] = s[1]!
        out[1] = -k * s[1]! * Math.abs(s[1]!)
      },
      (step * t) / steps,
      t / steps,
      state,
      work,
    )
  return state[0]!
}

/** Closed form: v = v0 / (1 + k v0 t), x = ln(1 + k v0 t) / k. */
const exactPosition = (k: number, v0: number, t: number) => Math.log1p(k * v0 * t) / k

// seen to fail: the second middle slope taken from the first one's trial state
test("rk4Step() reproduces the closed-form drag solution with fourth-order convergence", () => {
  const [k, v0, t] = [0.5, 40, 0.5]
  const points: [number, number][] = []
  for (let steps = 16; steps <= 4096; steps = Math.ceil(steps * 1.25)) {
    const error = Math.abs(fly(k, v0, t, steps) / exactPosition(k, v0, t) - 1)
    if (error < 1e-13) break // round-off would hide the slope
    points.push([Math.log10(t / steps), Math.log10(error)])
  }
  expect(points.length).toBeGreaterThan(15)
  expect(Math.abs(linearRegression(points).m - RK4_ORDER)).toBeLessThan(0.2)
  const correlation = sampleCorrelation(
    points.map((p) => p[0]),
    points.map((p) => p[1]),
  )
  expect(correlation).toBeGreaterThan(0.999)
})

// seen to fail: the stage times all taken at the start of the step
test("rk4Step() passes the time of each stage: dy/dt = t³ is integrated exactly", () => {
  const state = new Float64Array([0])
  const work = rk4Work(1)
  const slope = (out: Float64Array, t: number) => {
    out[0] = t * t * t
  }
  for (let step = 0; step < 4; step++) rk4Step(slope, step * 0.5, 0.5, state, work)
  expect(state[0]!).toBeCloseTo(4, 12)
})
