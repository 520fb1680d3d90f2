import { faceFrame, type Goalkeeping, savedUntil, setMoment } from "./answer.ts"
import { crossingDistance, isOutsideNet } from "./goal-line.ts"
import { dropStart, type Moment, REACTS } from "./moment.ts"
import { DOWN_FOR } from "./motion/opening.ts"
import { STATE_LENGTH, stateAt } from "./motion/timeline.ts"
import type { Decide } from "./outcome.ts"
import {
  CATCH_RADIUS,
  CENTRE,
  ERROR_PER_SPEED,
  ERROR_STEADY,
  GREATEST_V,
  HALF_SIZE,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  LONGEST_REACH,
  NO_LIMB,
  PART_STRIDE,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  type Posture,
  ROOT_LENGTH,
  ROUNDING,
} from "./parts.ts"
import { distanceBy, heightAt, PATH_DX, PATH_DY, PATH_X, PATH_Y, paceAt, timeAt } from "./path.ts"
import { stationOfState } from "./play/moves.ts"
import * as P from "./pose.ts"
import { sampleLognormal } from "./random/lognormal.ts"
import { DRAW_REACTION, GOALIE_DRAWS } from "./shots.ts"
import { STATION_COS, STATION_LENGTH, STATION_SIN, STATION_X, STATION_Y } from "./station.ts"
import { discToBox, type SteppedBox } from "./stepped-contact.ts"
import { steppedBody } from "./stepped-opening.ts"
import { steppedSight } from "./traffic/stepped-sight.ts"
import type { Metres, Seconds } from "./units.ts"
import { MOUTH_HALF_WIDTH, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "./world.ts"

/**
 * The plain estimator, slow and obvious: draw the reaction, then step body, limbs and puck through the play a
 * millisecond at a time and watch whether anything touches the puck. It has its own contact test and never asks for
 * saving reactions: the referee of the conditional estimator.
 */

const STEP: Seconds = 0.001
/** The body is watched while the puck is within this distance of the spot between the skates, in plan, m. */
const NEAR: Metres = 1.6
/** Golden-section steps that place the closest approach inside two time steps: to about a tenth of a microsecond. */
const GOLDEN_STEPS = 22
/** A part whose core the puck never comes nearer than this, m, cannot stop it, nor can its limb. */
const WORTH_A_LOOK: Metres = 1.5
const GOLDEN = 0.6180339887498949

/** One thing that could stop the puck: when it is closest, by how much it clears, and which part it is. */
export interface Touch {
  readonly part: number
  readonly limb: number
  readonly time: Seconds
  /** Clearance of the part where the body has it, m, and what is left of it after the limb's reach and error. */
  readonly clearance: Metres
  readonly margin: Metres
}

/** The puck's path, seen by one goalie. */
interface Flight {
  readonly g: Goalkeeping
  readonly path: Float64Array
  readonly offset: number
}

/** What the referee looks at: the puck and the body in the goalie's frame at any time. */
interface Watch extends Flight {
  readonly posture: Posture
  /** When the drop starts, s after release. */
  readonly dropStart: Seconds
  readonly handStart: Seconds
  /** When the puck's middle is on the plane of the goal line. */
  readonly line: Seconds
  /** The puck in the goalie's frame at each step while it is near: [steps x 3], and the time of each. */
  readonly pucks: Float64Array
  readonly times: Float64Array
}

/** Plain decision: 1 or 0. */
export const decidePlain: Decide = (g, pose, batch, i, path, outcome) => {
  faceFrame(g, batch, i, path)
  setMoment(g, pose, batch, i, path, steppedSight)
  const n = pose.numbers
  const u = batch.goalie[i * GOALIE_DRAWS + DRAW_REACTION]!
  const start = sampleLognormal(u, n[P.REACTION_MEDIAN]!, n[P.REACTION_SPREAD]!) - g.now.read
  const posture = steppedBody(g, pose, batch)
  outcome.byRegion.fill(0)
  outcome.saved = 0
  outcome.save.part = -1
  outcome.save.drawn = 1
  outcome.blocked = g.now.blockLead > REACTS && !g.now.committed ? 1 : 0
  const end = savedUntil(g, batch, i, path)
  const watch = watchShot(g, posture, batch.path, path, start, end)
  const touch = firstTouch(watch)
  if (touch) {
    outcome.saved = 1
    outcome.byRegion[posture.region[touch.part]!] = 1
    outcome.save.part = touch.part
    outcome.save.limb = touch.limb
    outcome.save.time = touch.time
    outcome.save.dropStart = watch.dropStart
  }
  // the body frozen as it stands, or lies
  const frozen = { ...watch, dropStart: lies(g) ? watch.dropStart : Infinity, handStart: Infinity }
  outcome.stood = firstTouch(frozen) ? 1 : 0
}

function watchShot(
  g: Goalkeeping,
  posture: Posture,
  path: Float64Array,
  offset: number,
  start: Seconds,
  end: Metres,
): Watch {
  const now = g.now
  const line = timeAt(path, offset, crossingDistance(path, offset))
  const handStart = now.frozen ? Infinity : start
  const drop = lies(g) ? -now.blockLead : dropStart(now, start)
  const watch = { g, posture, path, offset, dropStart: drop, handStart, line }
  const last = timeAt(path, offset, end)
  const first = firstNear(watch)
  const times = Float64Array.from({ length: Math.ceil((last - first) / STEP) + 1 }, (_, i) =>
    Math.min(last, first + i * STEP),
  )
  const pucks = new Float64Array(3 * times.length)
  for (let i = 0; i < times.length; i++) pucks.set(puckAt(watch, times[i]!), 3 * i)
  return { ...watch, times, pucks }
}

/** Whether a slide had put the goalie on the ice by the release. */
function lies({ moves, now }: Goalkeeping): boolean {
  return moves.travels && moves.opening[DOWN_FOR]! >= now.dropTime
}

/** Everything that would touch the puck, the first in time first; null when nothing does. */
function firstTouch(watch: Watch): Touch | null {
  let first: Touch | null = null
  for (let part = 0; part < watch.posture.count; part++) {
    const touch = watchPart(watch, part)
    if (touch && (first === null || touch.time < first.time)) first = touch
  }
  return first
}

/** Follows one part through the flight; the touch at its closest approach, or null. */
function watchPart(watch: Watch, part: number): Touch | null {
  const { times } = watch
  const until = lastLook(watch, part)
  let before = Infinity
  let here = Infinity
  for (let i = 0; i < times.length && times[i]! <= until; i++) {
    const next = size(toCore(watch, part, times[i]!, watch.pucks, 3 * i))
    // just past the closest step
    if (here <= before && here <= next && here < WORTH_A_LOOK) {
      const middle = (time: Seconds) => distanceToCore(watch, part, time)
      const touch = judge(watch, part, leastAt(middle, times[Math.max(0, i - 2)]!, times[i]!), until)
      if (touch) return touch
    }
    before = here
    here = next
  }
  // still coming nearer when the puck is over, or out of reach
  return here < before && here < WORTH_A_LOOK ? judge(watch, part, until, until) : null
}

/** Until when the part is watched: to the end, but outside the net only while the puck is before the goal line. */
function lastLook(watch: Watch, part: number): Seconds {
  const last = watch.times.at(-1)!
  if (last <= watch.line) return last
  const { scene } = watch.g
  const station = stationAt(watch.g, watch.line)
  const { posture } = watch
  const phase = phaseAt(watch, watch.line) * (posture.phases - 1)
  const at = (Math.round(phase) * posture.count + part) * PART_STRIDE + CENTRE
  const u = posture.parts[at]!
  const v = posture.parts[at + 1]!
  const x = station[STATION_X]! + station[STATION_COS]! * u - station[STATION_SIN]! * v
  const y = station[STATION_Y]! + station[STATION_SIN]! * u + station[STATION_COS]! * v
  return isOutsideNet(x, y, scene.world[MOUTH_HALF_WIDTH]!) ? watch.line : last
}

/** When the puck first comes near the goalie. */
function firstNear(watch: Flight): Seconds {
  const { station } = watch.g
  const x = watch.path[watch.offset + PATH_X]! - station[STATION_X]!
  const y = watch.path[watch.offset + PATH_Y]! - station[STATION_Y]!
  const along = -(x * watch.path[watch.offset + PATH_DX]! + y * watch.path[watch.offset + PATH_DY]!)
  return timeAt(watch.path, watch.offset, Math.max(0, along - NEAR))
}

/** Golden section for the time between two at which `distance` is least. */
function leastAt(distance: (time: Seconds) => Metres, from: Seconds, to: Seconds): Seconds {
  let a = Math.max(0, from)
  let b = to
  for (let i = 0; i < GOLDEN_STEPS; i++) {
    const left = b - GOLDEN * (b - a)
    const right = a + GOLDEN * (b - a)
    if (distance(left) < distance(right)) b = right
    else a = left
  }
  return 0.5 * (a + b)
}

/** Whether the part, or the limb that carries it, stops a puck whose middle is closest at `near`, watched until `until`. */
function judge(watch: Watch, part: number, near: Seconds, until: Seconds): Touch | null {
  const { now, scene } = watch.g
  const limb = watch.posture.carrier[part]!
  const rounding = watch.posture.parts[part * PART_STRIDE + ROUNDING]!
  const radius = scene.world[PUCK_RADIUS]!
  const half = scene.world[PUCK_HALF_THICKNESS]!
  const reach = limb === NO_LIMB ? 0 : watch.posture.limbs[limb * LIMB_STRIDE + LONGEST_REACH]!
  // no nearer than this, and no farther: the ball about the disc, and that in it
  const distance = distanceToCore(watch, part, near) - rounding
  if (distance - Math.hypot(radius, half) > reach) return null
  let time = near
  let clearance = distance - half
  if (clearance > 0) {
    const apart = (at: Seconds) => discToBox(puckAt(watch, at), radius, half, boxAt(watch, part, at))
    time = leastAt(apart, near - 2 * STEP, Math.min(until, near + 2 * STEP))
    clearance = apart(time) - rounding
  }
  if (clearance <= 0) return now.leaks ? null : { part, limb: NO_LIMB, time, clearance, margin: -clearance }
  if (limb === NO_LIMB || watch.handStart === Infinity || !canReach(watch, limb, time)) return null
  const margin = reachMargin(watch, limb, clearance, time, now)
  return margin >= 0 ? { part, limb, time, clearance, margin } : null
}

/** Steps the limb toward the path; what of its catch radius is left over when the puck is there. */
function reachMargin(watch: Watch, limb: number, gap: Metres, time: Seconds, now: Moment): Metres {
  const row = limb * LIMB_STRIDE
  const limbs = watch.posture.limbs
  const distance = gap + limbs[row + CATCH_RADIUS]!
  const begins = watch.handStart + limbs[row + LAG]!
  if (gap > limbs[row + LONGEST_REACH]! || time <= begins) return -1
  const bySpeed = (1.875 * distance) / limbs[row + PEAK_SPEED]!
  const byForce = Math.sqrt((5.773502691896258 * distance) / limbs[row + PEAK_ACCELERATION]!)
  const takes = Math.max(bySpeed, byForce)

  // midpoint rule on the minimum-jerk speed 30 d/T x² (1 - x)²
  let moved = 0
  for (let t = begins; t < time; t += STEP) {
    const dt = Math.min(STEP, time - t)
    const x = (t + 0.5 * dt - begins) / takes
    if (x < 1) moved += ((30 * distance) / takes) * x * x * (1 - x) * (1 - x) * dt
  }
  const sd = Math.hypot(limbs[row + ERROR_STEADY]!, (limbs[row + ERROR_PER_SPEED]! * distance) / (time - begins))
  return limbs[row + CATCH_RADIUS]! - Math.max(0, distance - moved) - sd * now.draws[now.errors + limb]!
}

/** Side and length limits of the limb for the puck's place at `time`. */
function canReach(watch: Watch, limb: number, time: Seconds): boolean {
  const row = limb * LIMB_STRIDE
  const puck = puckAt(watch, time)
  if (puck[1]! < watch.posture.limbs[row + LEAST_V]! || puck[1]! > watch.posture.limbs[row + GREATEST_V]!) return false
  const length = watch.posture.limbs[row + ROOT_LENGTH]!
  if (length === Infinity) return true
  const phase = phaseAt(watch, time) * (watch.posture.phases - 1)
  const k = Math.min(watch.posture.phases - 2, Math.floor(phase))
  let squared = 0
  for (let i = 0; i < 3; i++) {
    const a = watch.posture.roots[(k * LIMBS.length + limb) * 3 + i]!
    const b = watch.posture.roots[((k + 1) * LIMBS.length + limb) * 3 + i]!
    squared += (puck[i]! - a - (phase - k) * (b - a)) ** 2
  }
  return squared <= length * length
}

function phaseAt(watch: Watch, time: Seconds): number {
  const phase = (time - watch.dropStart) / watch.g.now.dropTime
  return Math.min(watch.g.now.lastPhase, Math.max(0, phase))
}

/** The puck's centre at `time` in the goalie's frame. */
function puckAt(watch: Flight, time: Seconds): number[] {
  const { path, offset } = watch
  const D = distanceBy(path, offset, time, time / paceAt(path, offset, 0))
  const station = stationAt(watch.g, time)
  const x = path[offset + PATH_X]! + D * path[offset + PATH_DX]! - station[STATION_X]!
  const y = path[offset + PATH_Y]! + D * path[offset + PATH_DY]! - station[STATION_Y]!
  const c = station[STATION_COS]!
  const s = station[STATION_SIN]!
  return [c * x + s * y, c * y - s * x, heightAt(path, offset, D)]
}

/** Where the goalie is at `time`: in place, or on the way and turning. */
function stationAt(g: Goalkeeping, time: Seconds): Float64Array {
  if (!g.moves.travels) return g.station
  const state = new Float64Array(STATE_LENGTH)
  const station = new Float64Array(STATION_LENGTH)
  stateAt(g.moves.timeline, g.now.begins + time, state)
  stationOfState(state, station)
  return station
}

function distanceToCore(watch: Watch, part: number, time: Seconds): Metres {
  return size(toCore(watch, part, time, puckAt(watch, time), 0))
}

function size(v: readonly number[]): number {
  return Math.sqrt(v[0]! * v[0]! + v[1]! * v[1]! + v[2]! * v[2]!)
}

/** Vector from the nearest point of the part's core to the puck's centre at `pucks[at]`, goalie's frame. */
function toCore(watch: Watch, part: number, time: Seconds, pucks: ArrayLike<number>, at: number): number[] {
  const { middle, axes, half } = boxAt(watch, part, time)
  const x = pucks[at]! - middle[0]!
  const y = pucks[at + 1]! - middle[1]!
  const z = pucks[at + 2]! - middle[2]!
  const excess = [0, 0, 0]
  for (let i = 0; i < 3; i++) {
    const axis = axes[i]!
    const q = x * axis[0]! + y * axis[1]! + z * axis[2]!
    const over = q - Math.max(-half[i]!, Math.min(half[i]!, q))
    for (let j = 0; j < 3; j++) excess[j] = excess[j]! + over * axis[j]!
  }
  return excess
}

/** The core of a part at `time`, goalie's frame. */
function boxAt(watch: Watch, part: number, time: Seconds): SteppedBox {
  const { posture } = watch
  const parts = posture.parts
  const phase = phaseAt(watch, time) * (posture.phases - 1)
  const k = Math.min(posture.phases - 2, Math.floor(phase))
  const share = phase - k
  const a = (k * posture.count + part) * PART_STRIDE
  const b = a + posture.count * PART_STRIDE
  const row = new Array<number>(9)
  for (let i = 0; i < 9; i++) row[i] = parts[a + i]! + share * (parts[b + i]! - parts[a + i]!)
  return {
    middle: [row[0]!, row[1]!, row[2]!],
    axes: upright([row[3]!, row[4]!, row[5]!], [row[6]!, row[7]!, row[8]!]),
    half: [parts[a + HALF_SIZE]!, parts[a + HALF_SIZE + 1]!, parts[a + HALF_SIZE + 2]!],
  }
}

/** Gram-Schmidt on two nearly perpendicular axes; the third is their product. */
function upright(first: number[], second: number[]): number[][] {
  const a = unit(first)
  const dot = second[0]! * a[0]! + second[1]! * a[1]! + second[2]! * a[2]!
  const b = unit([second[0]! - dot * a[0]!, second[1]! - dot * a[1]!, second[2]! - dot * a[2]!])
  return [a, b, [a[1]! * b[2]! - a[2]! * b[1]!, a[2]! * b[0]! - a[0]! * b[2]!, a[0]! * b[1]! - a[1]! * b[0]!]]
}

function unit(v: number[]): number[] {
  const length = Math.sqrt(v[0]! ** 2 + v[1]! ** 2 + v[2]! ** 2)
  return [v[0]! / length, v[1]! / length, v[2]! / length]
}
