import { type PlacedBody, placeBody } from "../../sim/box/placed.ts"
import { isOutsideNet } from "../../sim/goal-line.ts"
import { AXIS_0, CENTRE, HALF_SIZE, PART_STRIDE, type Posture, ROUNDING } from "../../sim/parts.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_X, PATH_Y, paceAt, timeAt } from "../../sim/path.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../../sim/station.ts"
import type { Metres, Probability, Seconds } from "../../sim/units.ts"
import { MOUTH_HALF_WIDTH, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../sim/world.ts"

/**
 * One puck flying past one goalie, watched in small steps of time in the rink frame: how near it comes to each part of
 * the body and by how much it would have to be shifted to get by. It measures for the story; what counts as a save is
 * decided elsewhere.
 */
export interface Watch {
  readonly posture: Posture
  readonly world: Float64Array
  readonly clocks: DropClock
  readonly steps: readonly Step[]
  /** Unit vectors across the flight, to the left of the puck's direction, and along it in plan. */
  readonly across: readonly [number, number]
}

/** When the drop starts (Infinity: never), how long a whole one takes and at which phase it stops. */
export interface DropClock {
  readonly start: Seconds
  readonly takes: Seconds
  readonly last: Probability
}

/** The puck and the body at one moment, rink frame. */
interface Step {
  readonly time: Seconds
  readonly puck: readonly [Metres, Metres, Metres]
  readonly body: PlacedBody
}

/** How near the puck came to a part where the drop had it, and when; a clearance of zero or less is a touch. */
export interface Pass {
  readonly part: number
  readonly time: Seconds
  readonly clearance: Metres
  /** Middle of the puck then, rink frame. */
  readonly puck: readonly [Metres, Metres, Metres]
}

const STEP: Seconds = 0.0005
/** The body is watched while the puck is within this distance of the spot between the skates, in plan, m. */
const NEAR: Metres = 1.8
/** Directions in which a touching puck is shifted, and halvings of each shift. */
const DIRECTIONS = 16
const HALVINGS = 12
const LARGEST_SHIFT: Metres = 1.6

/**
 * Steps puck and body through the flight until the puck has flown `end` metres of the path at `offset`. `stationAt` gives
 * where the goalie is; the same array every time for one who stays.
 */
export function watchFlight(
  posture: Posture,
  world: Float64Array,
  stationAt: (time: Seconds) => Float64Array,
  path: Float64Array,
  offset: number,
  end: Metres,
  clocks: DropClock,
): Watch {
  const dx = path[offset + PATH_DX]!
  const dy = path[offset + PATH_DY]!
  const x = path[offset + PATH_X]!
  const y = path[offset + PATH_Y]!
  const first = stationAt(0)
  const along = (first[STATION_X]! - x) * dx + (first[STATION_Y]! - y) * dy
  const steps: Step[] = []
  let phase = 0
  let station = first
  let body = placeAt(posture, phase, station)
  let distance = Math.min(Math.max(0, along - NEAR), end)
  for (let last = false; !last; ) {
    last = distance >= end
    const time = timeAt(path, offset, distance)
    // a body that stands or is down already stays where it is
    const now = phaseAt(clocks, time)
    const here = stationAt(time)
    if (now !== phase || here !== station) body = placeAt(posture, now, here)
    phase = now
    station = here
    steps.push({ time, puck: [x + distance * dx, y + distance * dy, heightAt(path, offset, distance)], body })
    distance = Math.min(end, distance + STEP / paceAt(path, offset, distance))
  }
  return { posture, world, clocks, steps, across: [-dy, dx] }
}

function placeAt(posture: Posture, phase: Probability, station: Float64Array): PlacedBody {
  const heading = Math.atan2(station[STATION_SIN]!, station[STATION_COS]!)
  return placeBody(posture, phase, station[STATION_X]!, station[STATION_Y]!, heading)
}

/** Phase of the drop at a moment. */
export function phaseAt({ start, takes, last }: DropClock, time: Seconds): Probability {
  return Math.min(last, Math.max(0, (time - start) / takes))
}

/**
 * The closest approach of the puck's middle to a part's core, and the clearance there: between two steps puck and part
 * move on straight lines. Of a puck that goes through the core it is the moment it comes in.
 */
export function passOf(watch: Watch, part: number): Pass {
  const pass = approach(watch, part, 0, 0)
  const step = watch.steps[pass.step]!
  const next = watch.steps[Math.min(pass.step + 1, watch.steps.length - 1)]!
  const between = (a: number, b: number): number => a + pass.share * (b - a)
  return {
    part,
    time: between(step.time, next.time),
    clearance: pass.clearance,
    puck: [
      between(step.puck[0], next.puck[0]),
      between(step.puck[1], next.puck[1]),
      between(step.puck[2], next.puck[2]),
    ],
  }
}

/** The smallest shift of the path, across it or up and down but not into the ice, that takes a touching puck by a part. */
export function shiftToClear(watch: Watch, part: number): Metres {
  let least = LARGEST_SHIFT
  for (let i = 0; i < DIRECTIONS; i++) {
    const angle = (2 * Math.PI * i) / DIRECTIONS
    const clears = (shift: Metres): boolean =>
      clearsWhenShifted(watch, part, shift * Math.cos(angle), shift * Math.sin(angle))
    if (!clears(least)) continue
    let inside = 0
    let outside = least
    for (let j = 0; j < HALVINGS; j++) {
      const middle = 0.5 * (inside + outside)
      if (clears(middle)) outside = middle
      else inside = middle
    }
    least = outside
  }
  return least
}

function clearsWhenShifted(watch: Watch, part: number, sideways: Metres, up: Metres): boolean {
  const { step, clearance } = approach(watch, part, sideways, up)
  const floor = watch.world[PUCK_HALF_THICKNESS]!
  return clearance > 0 && !(up < -1e-9 && watch.steps[step]!.puck[2] + up < floor)
}

interface Approach {
  /** Step before the closest approach, and the share of the way to the next. */
  readonly step: number
  readonly share: number
  readonly clearance: Metres
}

function approach(watch: Watch, part: number, sideways: Metres, up: Metres): Approach {
  const dx = sideways * watch.across[0]
  const dy = sideways * watch.across[1]
  const at = part * PART_STRIDE
  let a = new Float64Array(3)
  let b = new Float64Array(3)
  let step = 0
  let share = 0
  let least = Infinity
  let rise = 0
  const mouth = watch.world[MOUTH_HALF_WIDTH]!
  for (const [i, { puck, body }] of watch.steps.entries()) {
    // past the plane of the goal line a part outside the net is out of reach
    if (puck[0] < 0 && i > 0 && isOutsideNet(body.parts[at + CENTRE]!, body.parts[at + CENTRE + 1]!, mouth)) break
    excess(body.parts, at, puck[0] + dx, puck[1] + dy, puck[2] + up, b)
    if (i === 0) a.set(b)
    // nearest point of the straight way from a to b
    const wx = b[0]! - a[0]!
    const wy = b[1]! - a[1]!
    const wz = b[2]! - a[2]!
    const length = wx * wx + wy * wy + wz * wz
    const along = length > 0 ? -(a[0]! * wx + a[1]! * wy + a[2]! * wz) / length : 0
    const t = along < 0 ? 0 : along > 1 ? 1 : along
    const x = a[0]! + t * wx
    const y = a[1]! + t * wy
    const z = a[2]! + t * wz
    const distance = Math.sqrt(x * x + y * y + z * z)
    if (distance < least) {
      least = distance
      rise = z
      step = i > 0 ? i - 1 : 0
      share = t
    }
    const spare = a
    a = b
    b = spare
  }
  const rounding = watch.steps[step]!.body.parts[at + ROUNDING]!
  return { step, share, clearance: least - rounding - discToward(watch.world, least, rise) }
}

/** Vector from the nearest point of a part's core to the middle of the puck. */
function excess(parts: Float64Array, at: number, x: Metres, y: Metres, z: Metres, out: Float64Array): void {
  const rx = x - parts[at + CENTRE]!
  const ry = y - parts[at + CENTRE + 1]!
  const rz = z - parts[at + CENTRE + 2]!
  out.fill(0)
  for (let i = 0; i < 3; i++) {
    const axis = at + AXIS_0 + 3 * i
    const q = rx * parts[axis]! + ry * parts[axis + 1]! + rz * parts[axis + 2]!
    const half = parts[at + HALF_SIZE + i]!
    const over = q > half ? q - half : q < -half ? q + half : 0
    for (let j = 0; j < 3; j++) out[j] = out[j]! + over * parts[axis + j]!
  }
}

/** How far the puck, a level disc, reaches toward a point at this distance and height difference from its middle. */
function discToward(world: Float64Array, distance: Metres, rise: Metres): Metres {
  const up = distance < 1e-6 ? 1 : Math.min(1, Math.abs(rise / distance))
  return world[PUCK_RADIUS]! * Math.sqrt(1 - up * up) + world[PUCK_HALF_THICKNESS]! * up
}
