import { type Derivative, rk4Step, rk4Work } from "./integrate.ts"
import type { Metres, Seconds } from "./units.ts"
import { DRAG, GRAVITY, LIFT } from "./world.ts"

/** State of a puck in the air: place and velocity in the rink frame. */
export const PLACE = 0
export const VELOCITY = 3
export const FLIGHT_STATE = 6

/**
 * Forces on a puck in the air, for the reference integrator and its referees:
 *
 *   dv/dt = -g ez - k |v| v + l |v|² n
 *
 * g gravity, k = rho Cd A / 2m drag factor, l = rho Cl A / 2m lift factor, n the unit vector square to v in the vertical
 * plane through v, upward. Any direction but straight up or down.
 */
export function flightForces(world: Float64Array): Derivative {
  const gravity = world[GRAVITY]!
  const drag = world[DRAG]!
  const lift = world[LIFT]!
  return (out, _t, state) => {
    const vx = state[VELOCITY]!
    const vy = state[VELOCITY + 1]!
    const vz = state[VELOCITY + 2]!
    const horizontal = Math.sqrt(vx * vx + vy * vy)
    const v = Math.sqrt(vx * vx + vy * vy + vz * vz)
    // |v|² n has horizontal part -vz v along the direction of flight and vertical part horizontal · v
    const along = (-lift * vz * v) / horizontal
    out[PLACE] = vx
    out[PLACE + 1] = vy
    out[PLACE + 2] = vz
    out[VELOCITY] = -drag * v * vx + along * vx
    out[VELOCITY + 1] = -drag * v * vy + along * vy
    out[VELOCITY + 2] = -gravity - drag * v * vz + lift * v * horizontal
  }
}

/** Flies `state` on for `duration` in `steps` equal steps of time. In place; ice and iron are not there. */
export function flyInTime(world: Float64Array, state: Float64Array, duration: Seconds, steps: number): void {
  const forces = flightForces(world)
  const work = rk4Work(FLIGHT_STATE)
  const dt = duration / steps
  for (let step = 0; step < steps; step++) rk4Step(forces, step * dt, dt, state, work)
}

/**
 * Flies `state` on until it has come `distance` further in plan, in steps of time no longer than `longest`, and returns
 * how long that took. The last step is found by Newton's method on its length. The slow, plain way: the fast
 * flight is held against it. Throws RangeError when drag leaves the puck hanging before it gets there.
 */
export function flyToDistance(world: Float64Array, state: Float64Array, distance: Metres, longest: Seconds): Seconds {
  const forces = flightForces(world)
  const work = rk4Work(FLIGHT_STATE)
  const x0 = state[PLACE]!
  const y0 = state[PLACE + 1]!
  const travelled = (s: Float64Array): Metres => Math.sqrt((s[PLACE]! - x0) ** 2 + (s[PLACE + 1]! - y0) ** 2)
  const horizontal = (s: Float64Array) => Math.sqrt(s[VELOCITY]! ** 2 + s[VELOCITY + 1]! ** 2)

  let t = 0
  for (let left = distance; Math.abs(left) > 1e-12; left = distance - travelled(state)) {
    const speed = horizontal(state)
    if (speed < 1e-6)
      throw new RangeError(`Cannot fly ${distance} m as the puck must still be moving: current value is ${speed} m/s`)
    const dt = Math.min(longest, left / speed)
    rk4Step(forces, t, dt, state, work)
    t += dt
  }
  return t
}
