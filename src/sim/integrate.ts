import type { Seconds } from "./units.ts"

/** Right-hand side of dy/dt = f(t, y): writes the slope of `state` at time t into `out`. */
export type Derivative = (out: Float64Array, t: Seconds, state: Float64Array) => void

/** Order of accuracy of {@link rk4Step}; the convergence test asserts it. */
export const RK4_ORDER = 4

/** Work array for {@link rk4Step}: the four slopes and one trial state. */
export function rk4Work(length: number): Float64Array[] {
  return Array.from({ length: 5 }, () => new Float64Array(length))
}

/** Advances `state` by `dt` in place with the classical fourth-order Runge-Kutta method. */
export function rk4Step(f: Derivative, t: Seconds, dt: Seconds, state: Float64Array, work: Float64Array[]): void {
  const [k1, k2, k3, k4, trial] = work as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array]
  const length = state.length

  // slopes at the start, twice at the middle, and at the end
  f(k1, t, state)
  for (let i = 0; i < length; i++) trial[i] = state[i]! + 0.5 * dt * k1[i]!
  f(k2, t + 0.5 * dt, trial)
  for (let i = 0; i < length; i++) trial[i] = state[i]! + 0.5 * dt * k2[i]!
  f(k3, t + 0.5 * dt, trial)
  for (let i = 0; i < length; i++) trial[i] = state[i]! + dt * k3[i]!
  f(k4, t + dt, trial)

  // weighted mean slope
  for (let i = 0; i < length; i++) state[i] = state[i]! + (dt / 6) * (k1[i]! + 2 * k2[i]! + 2 * k3[i]! + k4[i]!)
}
