import { describe, expect, test } from "vitest"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import { fly } from "../../../src/sim/flight.ts"
import { NO_LIMB, PART_STRIDE, type Posture } from "../../../src/sim/parts.ts"
import { PATH_STRIDE } from "../../../src/sim/path.ts"
import * as B from "../../../src/sim/rebound/bounce.ts"
import { bounce, rebound } from "../../../src/sim/rebound/bounce.ts"
import { PUCK_RADIUS } from "../../../src/sim/world.ts"

const world = worldOf(defaultSettings())

/** A puck of velocity v on a surface of normal n. */
function off(v: readonly number[], n: readonly number[], restitution: number, friction: number): number[] {
  const b = new Float64Array(B.BOUNCE_LENGTH)
  b.set(v, B.OUT_V)
  b.set(n, B.OUT_N)
  b[B.RESTITUTION] = restitution
  b[B.SLIPS] = friction
  rebound(b)
  return [...b.subarray(B.OUT_V, B.OUT_V + 3)]
}

function expectClose(found: readonly number[], wanted: readonly number[]): void {
  for (const [i, value] of wanted.entries()) expect(found[i]).toBeCloseTo(value, 9)
}

describe("rebound()", () => {
  // seen to fail with 1 + e for e
  test("gives a puck that comes straight e of its speed back", () => {
    expectClose(off([-20, 0, 0], [1, 0, 0], 0.3, 0.4), [6, 0, 0])
  })

  test("leaves what runs along a smooth surface as it was", () => {
    expectClose(off([-20, 5, 2], [1, 0, 0], 0.3, 0), [6, 5, 2])
  })

  // seen to fail with the friction of the approach alone, without what comes back
  test("takes f (1 + e) times the approach off what runs along, and never turns it round", () => {
    expectClose(off([-10, 12, 0], [1, 0, 0], 0.2, 0.5), [2, 12 - 0.5 * 1.2 * 10, 0])
    expectClose(off([-10, 3, 0], [1, 0, 0], 0.2, 0.5), [2, 0, 0])
  })

  test("meets a surface that faces away head on", () => {
    expectClose(off([-10, 0, 0], [-1, 0, 0], 0.25, 0.3), [2.5, 0, 0])
  })
})

describe("bounce()", () => {
  /** A thin plate 0.5 m ahead of the goalie, standing square, or falling straight down by 1 m over the drop. */
  function plate(falls: number): Posture {
    const parts = new Float64Array(2 * PART_STRIDE)
    for (let k = 0; k < 2; k++)
      parts.set([0.5, 0, 0.6 - k * falls, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0.01, 0.5, 0.6, 0], k * PART_STRIDE)
    return {
      phases: 2,
      count: 1,
      parts,
      region: new Uint8Array(1),
      carrier: new Uint8Array([NO_LIMB]),
      restitution: new Float64Array([0.3]),
      limbs: new Float64Array(0),
      roots: new Float64Array(0),
      halfStance: 0.4,
      foremost: 0.5,
      leak: 0,
    }
  }

  function struck(falls: number, rate: number): Float64Array {
    const path = new Float64Array(PATH_STRIDE)
    fly(world, 8, 0, 0.3, Math.PI, 0.03, 30, 10, path, 0)
    const b = new Float64Array(B.BOUNCE_LENGTH)
    b[B.AT_X] = 1
    b[B.AT_COS] = 1
    b[B.RESTITUTION] = 0.3
    // any time the puck is inside the plate
    bounce(world, path, 0, plate(falls), 0, NO_LIMB, (8 - 1.5) / 29.5, 0, rate, b)
    return b
  }

  // seen to fail with the puck put where it is nearest instead of where it first touches
  test("puts the puck a radius before the plate, and sends it straight out", () => {
    const b = struck(0, 0)
    expect(b[B.OUT_X]).toBeCloseTo(1.51 + world[PUCK_RADIUS]!, 4)
    expectClose([...b.subarray(B.OUT_N, B.OUT_N + 3)], [1, 0, 0])
    expect(b[B.OUT_V]).toBeGreaterThan(0.3 * 28)
    expect(b[B.OUT_V]).toBeLessThan(0.3 * 30)
  })

  // seen to fail with the part's own velocity left out
  test("of a falling plate with no grip leaves the puck's own fall, and with grip drags it down", () => {
    const still = struck(0, 0)
    const falling = struck(1, 1 / 0.3)
    expect(falling[B.OUT_V + 2]).toBeCloseTo(still[B.OUT_V + 2]!, 9)
    const path = new Float64Array(PATH_STRIDE)
    fly(world, 8, 0, 0.3, Math.PI, 0.03, 30, 10, path, 0)
    const b = new Float64Array(B.BOUNCE_LENGTH)
    b[B.AT_X] = 1
    b[B.AT_COS] = 1
    b[B.RESTITUTION] = 0.3
    b[B.SLIPS] = 10
    bounce(world, path, 0, plate(1), 0, NO_LIMB, (8 - 1.5) / 29.5, 0, 1 / 0.3, b)
    expect(b[B.OUT_V + 2]).toBeCloseTo(-1 / 0.3, 6)
  })
})
