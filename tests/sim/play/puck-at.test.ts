import { expect, test } from "vitest"
import { branchRow, type Leg, PLAY_DRAWS, playTable } from "../../../src/sim/play/course.ts"
import { type PlayedShot, puckAt } from "../../../src/sim/play/puck-at.ts"
import { CLOCK_LENGTH, LEG_ENDS, LEG_STARTS, timePlay } from "../../../src/sim/play/timing.ts"
import { DRAG, GRAVITY, ICE_FRICTION, WORLD_LENGTH } from "../../../src/sim/world.ts"

const LEG: Leg = { kind: "pass", x: 4, y: 3, speed: 15, speedSpread: 0, flies: 0, wait: 0.2, waitSpread: 0 }

function worldWith(friction: number, drag: number): Float64Array {
  const world = new Float64Array(WORLD_LENGTH)
  world[GRAVITY] = 9.81
  world[ICE_FRICTION] = friction
  world[DRAG] = drag
  return world
}

/** A play of these legs from (4, -3) and a shot at (x, y), timed. */
function timed(world: Float64Array, legs: readonly Leg[], x: number, y: number) {
  const play = playTable([{ x: 4, y: -3, legs, lost: 0 }], true)
  const clock = new Float64Array(CLOCK_LENGTH)
  const draws = new Float64Array(PLAY_DRAWS)
  timePlay(world, play, branchRow(0), x, y, draws, 0, clock, 0)
  const shot: PlayedShot = { branch: branchRow(0), x, y, clock, clockAt: 0, draws, drawsAt: 0 }
  const out = new Float64Array(2)
  const at = (t: number): [number, number] => {
    puckAt(world, play, shot, t, out)
    return [out[0]!, out[1]!]
  }
  return { clock, at }
}

// closed form of a slide under friction alone: s = v t - a t² / 2; seen to fail with the way taken as even
test("puckAt() has a pass on the ice where uniform deceleration says, 6 m across in all", () => {
  const friction = 0.1
  const { clock, at } = timed(worldWith(friction, 0), [LEG], 4, 3)
  for (const t of [0.05, 0.2, 0.35]) {
    const [x, y] = at(clock[LEG_STARTS]! + t)
    expect(x).toBeCloseTo(4, 12)
    expect(y).toBeCloseTo(-3 + 15 * t - 0.5 * friction * 9.81 * t * t, 6)
  }
})

// seen to fail with the wait left out, the puck gliding on to the release
test("puckAt() keeps the puck at its start before the play, at the end of a leg while it waits, and at the shot after", () => {
  const carry: Leg = { ...LEG, kind: "carry", x: 6, y: 0, speed: 5 }
  const { clock, at } = timed(worldWith(0, 0), [carry, { ...LEG, x: 9, y: 9 }], 5, 3)
  expect(at(clock[LEG_STARTS]! - 1)).toEqual([4, -3])
  expect(at(0.5 * (clock[LEG_ENDS]! + clock[LEG_STARTS + 1]!))).toEqual([6, 0])
  const half = at(0.5 * (clock[LEG_STARTS]! + clock[LEG_ENDS]!))
  expect(half[0]).toBeCloseTo(5, 12)
  expect(half[1]).toBeCloseTo(-1.5, 12)
  for (const t of [-0.01, 0, 3]) expect(at(t)).toEqual([5, 3])
})

// stepped independently: level speed loses k v² a second in the air, mu g and k v² on the ice; seen to fail aimed at where it is looked at
test("puckAt() follows a saucer through its flight and its slide as small steps of its speed do", () => {
  const [friction, drag, flies] = [0.1, 0.02, 3]
  const world = worldWith(friction, drag)
  const { clock, at } = timed(world, [{ ...LEG, flies }], 4, 3)
  const starts = clock[LEG_STARTS]!
  // the level speed it leaves with: from where it is after a moment
  const moment = 1e-3
  let v = (at(starts + moment)[1] + 3) / moment
  let s = 0
  const dt = 1e-5
  let landed = 0
  for (let t = 0; t < clock[LEG_ENDS]! - starts - dt; t += dt) {
    if (s < flies) v -= drag * v * v * dt
    else {
      // coming down costs mu times the speed down, half of g T
      if (landed === 0) v -= friction * 0.5 * 9.81 * t
      landed = 1
      v -= (drag * v * v + friction * 9.81) * dt
    }
    s += v * dt
    if (Math.round(t / dt) % 5000 === 0 && t > 0.05) expect(at(starts + t + dt)[1] + 3).toBeCloseTo(s, 2)
  }
  expect(s).toBeCloseTo(6, 1)
})
