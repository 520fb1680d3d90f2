import seedrandom from "seedrandom"
import { worldOf } from "../../src/models/plays/world.ts"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"
import { fly } from "../../src/sim/flight.ts"
import { FLIGHT_STATE } from "../../src/sim/flight-reference.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"

/** A world of the defaults with some columns set. */
export function worldWith(columns: Readonly<Record<number, number>> = {}): Float64Array {
  const world = worldOf(defaultSettings())
  for (const [column, value] of Object.entries(columns)) world[Number(column)] = value
  return world
}

export { defaultSettings, withSettings }

/** One launch from the origin of a test's own frame. */
export interface Launch {
  readonly x: number
  readonly y: number
  readonly z: number
  readonly azimuth: number
  readonly elevation: number
  readonly speed: number
}

export const degrees = (angle: number) => (angle * Math.PI) / 180

/** State of the reference integrator at release. */
export function releaseState(launch: Launch): Float64Array {
  const state = new Float64Array(FLIGHT_STATE)
  const level = launch.speed * Math.cos(launch.elevation)
  state.set([launch.x, launch.y, launch.z])
  state.set([level * Math.cos(launch.azimuth), level * Math.sin(launch.azimuth)], 3)
  state[5] = launch.speed * Math.sin(launch.elevation)
  return state
}

/** The stored path of one launch. */
export function pathOf(world: Float64Array, launch: Launch, until: number): Float64Array {
  const path = new Float64Array(PATH_STRIDE)
  fly(world, launch.x, launch.y, launch.z, launch.azimuth, launch.elevation, launch.speed, until, path, 0)
  return path
}

/** Seeded launches over the whole range the fast flight promises: 5 to 50 m/s, up to 40 degrees. */
export function launches(seed: string, count: number): Launch[] {
  const random = seedrandom(seed)
  return Array.from({ length: count }, () => ({
    x: 0,
    y: 0,
    z: 0.0127 + (random() < 0.5 ? 0 : 0.4 * random()),
    azimuth: 2 * Math.PI * random(),
    elevation: degrees(40) * random() ** (random() < 0.5 ? 1 : 3),
    speed: 5 + 45 * random() ** 1.5,
  }))
}
