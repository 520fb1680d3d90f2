import seedrandom from "seedrandom"
import { expect, test } from "vitest"
import { IRON_IN, IRON_OUT, MISS, ON_GOAL, SHORT } from "../../src/sim/fate.ts"
import { fly } from "../../src/sim/flight.ts"
import { crossMouth, highestClear, MOUTH_STRIDE, MOUTH_T, MOUTH_Y, MOUTH_Z } from "../../src/sim/iron.ts"
import { aimAt } from "../../src/sim/launch.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_STRIDE, PATH_X, PATH_Y } from "../../src/sim/path.ts"
import { DRAG, GRAVITY, IRON_FRICTION, IRON_RESTITUTION } from "../../src/sim/world.ts"
import { degrees, worldWith } from "./flight-worlds.ts"

const R = 0.0381
const H = 0.0127
const IRON = 0.03015
const POST_Y = 0.9144 + IRON
const BAR_Z = 1.2192 + IRON

/** No gravity, no drag, no friction of iron: straight lines and mirror-like reflections with restitution 1/2. */
const STRAIGHT = { [GRAVITY]: 0, [DRAG]: 0, [IRON_FRICTION]: 0, [IRON_RESTITUTION]: 0.5 }

interface Crossing {
  readonly fate: number
  readonly y: number
  readonly z: number
  readonly t: number
  readonly path: Float64Array
}

/** Shoots from (x, y, z) at the point (targetY, targetZ) of the goal line's plane. */
function shoot(world: Float64Array, from: readonly number[], targetY: number, targetZ: number, speed = 30): Crossing {
  const [x, y, z] = from as [number, number, number]
  const path = new Float64Array(PATH_STRIDE)
  const out = new Float64Array(MOUTH_STRIDE)
  aimAt(world, x, y, z, targetY, targetZ, speed, 5, path, 0, out, 0)
  fly(world, x, y, z, out[0]!, Math.atan(out[1]!), speed, Math.hypot(x, targetY - y) + 0.4, path, 0)
  const fate = crossMouth(world, path, 0, out)
  return { fate, y: out[MOUTH_Y]!, z: out[MOUTH_Z]!, t: out[MOUTH_T]!, path }
}

// seen to fail: the posts forgotten
test("crossMouth() lets shots in between the posts under the bar and calls the others by name", () => {
  const world = worldWith()
  const spot = [9, 2, H]
  expect(shoot(world, spot, 0, 0.6).fate).toBe(ON_GOAL)
  expect(shoot(world, spot, 0.8, H).fate).toBe(ON_GOAL)
  expect(shoot(world, spot, 1.2, 0.6).fate).toBe(MISS)
  expect(shoot(world, spot, -1.2, 0.6).fate).toBe(MISS)
  expect(shoot(world, spot, 0, 1.5).fate).toBe(MISS)
  expect(shoot(world, spot, POST_Y, 0.6).fate).toBe(IRON_OUT)
  expect(shoot(world, spot, 0, BAR_Z).fate).toBe(IRON_OUT)
})

// seen to fail: time at the plane taken at the release
test("crossMouth() says where and when the shot crosses", () => {
  const shot = shoot(worldWith(STRAIGHT), [6, 3, 0.1], -0.3, 0.7, 20)
  expect(shot.y).toBeCloseTo(-0.3, 10)
  expect(shot.z).toBeCloseTo(0.7, 5)
  expect(shot.t).toBeCloseTo(Math.hypot(6, 3.3, 0.6) / 20, 6)
})

// seen to fail: a puck that stops counted as wide
test("crossMouth() tells a puck that stops short from one that leads away", () => {
  const world = worldWith()
  const out = new Float64Array(MOUTH_STRIDE)
  const path = new Float64Array(PATH_STRIDE)
  fly(world, 20, 0, 0, Math.PI, 0, 3, 30, path, 0)
  expect(crossMouth(world, path, 0, out)).toBe(SHORT)
  expect(out[MOUTH_Y]!).toBeNaN()
  fly(world, 5, 0, 0, 0.3, 0, 20, 30, path, 0)
  expect(crossMouth(world, path, 0, out)).toBe(MISS)
  fly(world, -1, 0, 0, Math.PI, 0, 20, 30, path, 0)
  expect(crossMouth(world, path, 0, out)).toBe(MISS)
  // flown too little to get there: wide, since nobody who asks for the goal line stops before it
  fly(world, 5, 0, 0, Math.PI, 0, 20, 4, path, 0)
  expect(crossMouth(world, path, 0, out)).toBe(MISS)
})

// with restitution e a puck goes on over the line when it meets the iron at sin² > e / (1 + e) off its axis
// seen to fail: restitution applied twice; the normal reversed
test("crossMouth() reflects off a post in or out where the closed form says", () => {
  const world = worldWith(STRAIGHT)
  const edge = (R + IRON) * Math.sqrt(0.5 / 1.5)
  for (const side of [1, -1]) {
    const head = (inward: number) => {
      const y = side * (POST_Y - inward)
      return shoot(world, [8, y, 0.5], y, 0.5).fate
    }
    expect(head(edge - 0.001)).toBe(IRON_OUT)
    expect(head(edge + 0.001)).toBe(IRON_IN)
    expect(head(R + IRON - 1e-4)).toBe(IRON_IN)
    expect(head(R + IRON + 1e-4)).toBe(ON_GOAL)
    expect(head(-edge - 0.001)).toBe(IRON_OUT)
    expect(head(-R - IRON - 1e-4)).toBe(MISS)
  }
})

// the level disc meets the bar with its rim (out), its edge (a circle) or not at all
// seen to fail: the disc's half thickness left out of the corner
test("crossMouth() reflects off the bar in or out where the closed form says", () => {
  const world = worldWith(STRAIGHT)
  const edge = H + IRON * Math.sqrt(0.5 / 1.5)
  const level = (below: number) => shoot(world, [8, 0, BAR_Z - below], 0, BAR_Z - below).fate
  expect(level(0)).toBe(IRON_OUT)
  expect(level(edge - 0.001)).toBe(IRON_OUT)
  expect(level(edge + 0.001)).toBe(IRON_IN)
  expect(level(H + IRON + 1e-4)).toBe(ON_GOAL)
  expect(level(-edge - 0.001)).toBe(IRON_OUT)
  expect(level(-H - IRON - 1e-4)).toBe(MISS)
})

// seen to fail: the crossing of the undisturbed path kept for IRON_IN
test("crossMouth() reports the new crossing of a shot that goes in off the iron", () => {
  const world = worldWith(STRAIGHT)
  const y = POST_Y - 0.05
  const shot = shoot(world, [8, y, 0.5], y, 0.5)
  expect(shot.fate).toBe(IRON_IN)
  // contact at the angle of the offset, then a straight line along the reflected velocity
  const sine = 0.05 / (R + IRON)
  const cosine = Math.sqrt(1 - sine * sine)
  const ahead = (R + IRON) * cosine
  const vx = -1 + 1.5 * cosine * cosine
  const vy = -1.5 * cosine * sine
  expect(shot.y).toBeCloseTo(y + (ahead / -vx) * vy, 9)
  expect(shot.z).toBeCloseTo(0.5, 6)
  expect(shot.t).toBeCloseTo((8 - ahead + ahead / -vx) / 30, 6)
})

// seen to fail: one contact in place of two
test("crossMouth() follows a puck from one post to the other and in off its back", () => {
  const world = worldWith({ ...STRAIGHT, [IRON_RESTITUTION]: 1 })
  const touch = R + IRON
  const from = [1.2, -0.3] as const
  let offBoth = 0
  for (let i = 1; i < 3000; i++) {
    const y = POST_Y - (2 * touch * i) / 3000
    // by hand: the line meets the left post's circle, is mirrored there and goes on
    const length = Math.hypot(from[0], y - from[1])
    const [vx, vy] = [-from[0] / length, (y - from[1]) / length]
    const along = (POST_Y - y) * vy
    const beside = (POST_Y - y) * vx
    if (Math.abs(beside) >= touch) continue
    const q = along - Math.sqrt(touch * touch - beside * beside)
    const [nx, ny] = [(q * vx) / touch, (y + q * vy - POST_Y) / touch]
    const into = vx * nx + vy * ny
    const [wx, wy] = [vx - 2 * into * nx, vy - 2 * into * ny]
    const { fate } = shoot(world, [...from, 0.4], y, 0.4)
    if (wx >= 0) {
      expect(fate).toBe(IRON_OUT)
      continue
    }
    const over = y + q * vy + (wy * (q * vx + touch)) / -wx
    if (Math.abs(over) < POST_Y) expect(fate).toBe(IRON_IN)
    // the first reflection alone would carry it past the right post
    else if (fate === IRON_IN) offBoth++
  }
  expect(offBoth).toBeGreaterThan(0)
})

// seen to fail: every touched puck that gets over the line counted in, wherever it crosses
test("crossMouth() keeps a puck out that crosses outside the post and touches it from behind", () => {
  const world = worldWith(STRAIGHT)
  // almost along the goal line from the left: over the line outside the left post, then into its back
  const shot = shoot(world, [0.35, 4, 0.3], POST_Y + 0.3, 0.3)
  expect(shot.fate === IRON_OUT || shot.fate === MISS).toBe(true)
  let touches = 0
  for (let y = POST_Y; y < POST_Y + 1.5; y += 0.01) {
    const { fate } = shoot(world, [0.2, 4, 0.3], y, 0.3)
    expect(fate === IRON_OUT || fate === MISS).toBe(true)
    touches += fate === IRON_OUT ? 1 : 0
  }
  expect(touches).toBeGreaterThan(20)
})

/** Least gap between the disc and any iron along the stored path, by small steps; the slow, obvious way. */
function leastGap(path: Float64Array): number {
  let least = 1
  const across = -path[PATH_X]! / path[PATH_DX]!
  for (let D = Math.max(0, across - 0.6); D < across + 0.35; D += 0.0004) {
    const x = path[PATH_X]! + D * path[PATH_DX]!
    const y = path[PATH_Y]! + D * path[PATH_DY]!
    const z = heightAt(path, 0, D)
    if (z - H < BAR_Z) least = Math.min(least, Math.hypot(x, Math.abs(y) - POST_Y) - R - IRON)
    if (Math.abs(y) >= POST_Y) continue
    const inFront = Math.max(0, Math.abs(x) - R)
    const above = Math.max(0, Math.abs(z - BAR_Z) - H)
    least = Math.min(least, Math.hypot(inFront, above) - IRON)
  }
  return least
}

// seen to fail: the bar's reach with the disc's radius in place of |nx| R; the post's without the iron
test("crossMouth() touches iron exactly where small steps along the path do", () => {
  const world = worldWith()
  const random = seedrandom("touch")
  let touched = 0
  let clear = 0
  for (let i = 0; i < 600; i++) {
    const distance = 2 + 16 * random()
    const bearing = degrees(130) * (random() - 0.5)
    const onBar = random() < 0.5
    const y = onBar ? 1.7 * (random() - 0.5) : Math.sign(random() - 0.5) * (POST_Y + 0.3 * (random() - 0.5))
    const z = onBar ? BAR_Z + 0.2 * (random() - 0.5) : 1.1 * random()
    const from = [distance * Math.cos(bearing), distance * Math.sin(bearing), H]
    const shot = shoot(world, from, y, z, 12 + 25 * random())
    const gap = leastGap(shot.path)
    if (Math.abs(gap) < 0.0015) continue // the path bends a little on its way past the iron
    expect(shot.fate === IRON_IN || shot.fate === IRON_OUT).toBe(gap < 0)
    if (gap < 0) touched++
    else clear++
  }
  expect(Math.min(touched, clear)).toBeGreaterThan(100)
})

// seen to fail: the sign of y lost on the left post
test("crossMouth() gives a mirrored shot the mirrored fate", () => {
  const world = worldWith()
  const random = seedrandom("mirror")
  for (let i = 0; i < 500; i++) {
    const from = [1 + 10 * random(), 8 * (random() - 0.5), H]
    const y = 2.2 * (random() - 0.5)
    const z = 1.3 * random()
    const shot = shoot(world, from, y, z)
    const mirrored = shoot(world, [from[0]!, -from[1]!, H], -y, z)
    expect(mirrored.fate).toBe(shot.fate)
    if (Number.isFinite(shot.y)) expect(mirrored.y).toBeCloseTo(-shot.y, 9)
  }
})

// seen to fail: the slope's sign kept in the disc's extent
test("highestClear() is where crossMouth() begins to touch the bar", () => {
  const world = worldWith(STRAIGHT)
  for (const from of [0.1, 0.7, 1.4]) {
    for (let low = 1, high = BAR_Z, i = 0; ; i++) {
      const middle = 0.5 * (low + high)
      if (i > 40) {
        const slope = (from - middle) / 6
        expect(highestClear(world, slope)).toBeCloseTo(middle, 4)
        break
      }
      if (shoot(world, [6, 0, from], 0, middle).fate === ON_GOAL) low = middle
      else high = middle
    }
  }
})
