import { describe, expect, test } from "vitest"
import { extentOf } from "../../../src/models/goalie/part-extent.ts"
import { PARTS } from "../../../src/models/goalie/part-names.ts"
import { PHASES } from "../../../src/models/goalie/posture.ts"
import { STANCES } from "../../../src/models/goalie/stances.ts"
import {
  AXIS_0,
  AXIS_1,
  AXIS_2,
  HALF_SIZE,
  LIMBS,
  NO_LIMB,
  PART_STRIDE,
  type Posture,
  REGIONS,
  ROUNDING,
} from "../../../src/sim/parts.ts"
import { axisOf, centreOf, goalie, rowOf, sizeOf } from "./bodies.ts"

/** Every named stance, both hands, the smallest and the largest goalie. */
function everyBody(): [string, Posture][] {
  const bodies: [string, Posture][] = []
  for (const stance of Object.keys(STANCES)) {
    bodies.push([stance, goalie({}, { stance })])
    bodies.push([`${stance}, right post`, goalie({}, { stance, near_post: "right", catches: "right" })])
    bodies.push([`${stance}, 1.40 m`, goalie({ stature: 1.4 }, { stance, gear: "youth" })])
    bodies.push([
      `${stance}, 2.10 m`,
      goalie({ stature: 2.1 }, { stance, gear: "international", proportions: "women" }),
    ])
  }
  return bodies
}
const BODIES = everyBody()

function dot(parts: Float64Array, a: number, b: number): number {
  return parts[a]! * parts[b]! + parts[a + 1]! * parts[b + 1]! + parts[a + 2]! * parts[b + 2]!
}

describe("every posture", () => {
  // seen red: width taken as axis x face
  test.each(BODIES)("%s: axes of every part are unit vectors at right angles, a2 = a0 x a1", (_, posture) => {
    const { parts } = posture
    for (let at = 0; at < parts.length; at += PART_STRIDE) {
      for (const axis of [AXIS_0, AXIS_1, AXIS_2]) expect(dot(parts, at + axis, at + axis)).toBeCloseTo(1, 12)
      expect(dot(parts, at + AXIS_0, at + AXIS_2)).toBeCloseTo(0, 12)
      const [ax, ay, az] = parts.subarray(at + AXIS_0, at + AXIS_0 + 3)
      const [bx, by, bz] = parts.subarray(at + AXIS_1, at + AXIS_1 + 3)
      expect(parts[at + AXIS_2]!).toBeCloseTo(ay! * bz! - az! * by!, 12)
      expect(parts[at + AXIS_2 + 1]!).toBeCloseTo(az! * bx! - ax! * bz!, 12)
      expect(parts[at + AXIS_2 + 2]!).toBeCloseTo(ax! * by! - ay! * bx!, 12)
    }
  })

  // seen red: paddle length taken from the hand's distance at each phase
  test.each(BODIES)("%s: a part keeps its size in the drop and turns by less than 40 degrees a phase", (_, posture) => {
    const { parts, count } = posture
    for (let k = 1; k < PHASES; k++) {
      for (let part = 0; part < count; part++) {
        const at = (k * count + part) * PART_STRIDE
        const before = at - count * PART_STRIDE
        for (let i = HALF_SIZE; i <= ROUNDING; i++) {
          expect(parts[at + i]!).toBe(parts[before + i]!)
          expect(parts[at + i]!).toBeGreaterThanOrEqual(0)
        }
        for (const axis of [AXIS_0, AXIS_1, AXIS_2]) {
          const turn = [0, 1, 2].reduce((sum, i) => sum + parts[at + axis + i]! * parts[before + axis + i]!, 0)
          expect(turn, `${PARTS[part]} phase ${k}`).toBeGreaterThan(Math.cos((40 * Math.PI) / 180))
        }
      }
    }
  })

  // seen red: boot lying at half of its own height
  test.each(BODIES)("%s: nothing is more than a centimetre under the ice, and the blade lies on it", (_, posture) => {
    for (let at = 0; at < posture.parts.length; at += PART_STRIDE) {
      const part = PARTS[(at / PART_STRIDE) % posture.count]!
      expect(extentOf(posture.parts, at, 2).least, part).toBeGreaterThan(-0.01)
    }
    for (let k = 0; k < PHASES; k++) {
      expect(extentOf(posture.parts, rowOf(posture, "stick blade", k), 2).least).toBeCloseTo(0, 12)
    }
  })

  // seen red: STRAIGHTEST at 3
  test("a hand wanted further than the arm is long stays on the arm", () => {
    const posture = goalie({ hands_ahead: 1.1, hands_out: 0.6 })
    for (let k = 0; k < PHASES; k++) {
      const root = posture.roots.subarray(k * LIMBS.length * 3, k * LIMBS.length * 3 + 3)
      const hand = centreOf(posture, "catching glove", k)
      const distance = Math.hypot(hand[0]! - root[0]!, hand[1]! - root[1]!, hand[2]! - root[2]!)
      // upper arm and forearm to the grip, in shares of stature
      expect(distance).toBeCloseTo(0.98 * (0.186 + 0.1987) * 1.88, 9)
    }
  })
})

describe("what parts are and who carries them", () => {
  const posture = goalie()
  // seen red: mask given to no limb
  test("the body has 18 parts: the trunk carries torso, shoulders and mask, each leg its pad and skate", () => {
    expect(posture.count).toBe(18)
    const carried = (limb: string): string[] =>
      PARTS.filter((_, i) => posture.carrier[i] === LIMBS.indexOf(limb as (typeof LIMBS)[number]))
    expect(carried("glove hand")).toEqual(["catching glove"])
    expect(carried("blocker hand")).toEqual(["blocker"])
    expect(carried("stick")).toEqual(["stick blade", "paddle"])
    expect(carried("left leg")).toEqual(["left pad", "left skate"])
    expect(carried("right leg")).toEqual(["right pad", "right skate"])
    expect(carried("trunk")).toEqual(["torso", "shoulders", "mask"])
    expect([...posture.carrier].filter((limb) => limb === NO_LIMB)).toHaveLength(7)
  })

  test("each region has a part", () => {
    expect(new Set([...posture.region].map((index) => REGIONS[index]))).toEqual(new Set(REGIONS))
  })

  // seen red: pad and glove restitution exchanged
  test("a puck comes livelier off a pad than off the glove", () => {
    const of = (part: (typeof PARTS)[number]): number => posture.restitution[PARTS.indexOf(part)]!
    expect(of("left pad")).toBe(0.27)
    expect(of("catching glove")).toBe(0.08)
    expect(of("torso")).toBe(0.1)
  })

  test("half the stance is the outer edge of the skate, and the foremost point is the furthest of all parts", () => {
    expect(posture.halfStance).toBeCloseTo(extentOf(posture.parts, rowOf(posture, "left skate"), 1).most, 12)
    expect(posture.halfStance).toBeGreaterThan(0.4)
    const points = Array.from({ length: posture.parts.length / PART_STRIDE }, (_, i) =>
      extentOf(posture.parts, i * PART_STRIDE, 0),
    )
    expect(posture.foremost).toBe(Math.max(...points.map((point) => point.most)))
  })
})

describe("the set stance and the drop of a goalie of 1.88 m", () => {
  const posture = goalie()
  const last = PHASES - 1

  // seen red: feet width not halved
  test("the skates stand 0.80 m apart and the shoulders at 1.20 m", () => {
    // the middle of a skate is ahead of its ankle along the toe: take the ankle back off
    const [u, v] = centreOf(posture, "left skate")
    const toe = axisOf(posture, "left skate", 0)
    expect(v! - (u! / toe[0]!) * toe[1]!).toBeCloseTo(0.4, 6)
    expect(posture.roots[2]!).toBeGreaterThan(1.15)
    expect(posture.roots[2]!).toBeLessThan(1.25)
  })

  // seen red: face turned up instead of forward
  test("down, both pads lie on the ice on their inner edge, faces forward and turned out by 25 degrees", () => {
    for (const [part, side] of [
      ["left pad", 1],
      ["right pad", -1],
    ] as const) {
      expect(extentOf(posture.parts, rowOf(posture, part, last), 2).least).toBeLessThan(0.012)
      const face = axisOf(posture, part, 2, last)
      expect(Math.atan2(side * face[1]!, face[0]!)).toBeCloseTo((25 * Math.PI) / 180, 3)
      expect(face[2]!).toBeCloseTo(0, 3)
      expect(Math.abs(axisOf(posture, part, 0, last)[2]!)).toBeLessThan(0.05)
    }
  })

  /** Innermost corner of the left pad's top end. */
  function innerEdge(phase: number): number {
    const [, v] = centreOf(posture, "left pad", phase)
    const size = sizeOf(posture, "left pad", phase)
    const [a, w, n] = ([0, 1, 2] as const).map((axis) => axisOf(posture, "left pad", axis, phase)[1]!)
    return v! + (a! * size[0]! - Math.abs(w!) * size[1]! - Math.abs(n!) * size[2]!) / 2
  }
  // seen red: gap closing with the square of the phase
  test("the gap between the pads at their tops closes in proportion to the phase", () => {
    for (let k = 0; k < PHASES; k++) {
      expect(innerEdge(k)).toBeCloseTo((0.13 + (k / last) * (0.06 - 0.13)) / 2, 9)
    }
  })

  // seen red: hips falling in proportion to the phase
  test("the hips fall with the square of the phase and straight down", () => {
    const hip = (k: number): number[] => {
      const at = (k * LIMBS.length + LIMBS.indexOf("trunk")) * 3
      return [...posture.roots.subarray(at, at + 3)]
    }
    for (let k = 0; k < PHASES; k++) {
      const fallen = (hip(0)[2]! - hip(k)[2]!) / (hip(0)[2]! - hip(last)[2]!)
      expect(fallen).toBeCloseTo((k / last) ** 2, 9)
      expect(hip(k)[0]!).toBeCloseTo(hip(0)[0]!, 9)
    }
  })

  test("down, the chest is lower and the pads reach wider than the feet stood", () => {
    expect(posture.roots[last * LIMBS.length * 3 + 2]!).toBeLessThan(posture.roots[2]! - 0.15)
    expect(extentOf(posture.parts, rowOf(posture, "left skate", last), 1).most).toBeGreaterThan(0.9)
  })

  // seen red: seal gap not given to the ankle
  test("a butterfly seals the ice only as well as its seal gap says", () => {
    const lifted = goalie({ seal_gap: 0.06 })
    const sealed = goalie({ seal_gap: 0 })
    const ankleEnd = (p: Posture): number => extentOf(p.parts, rowOf(p, "left skate", last), 2).least
    expect(ankleEnd(lifted)).toBeCloseTo(0.06, 9)
    expect(ankleEnd(sealed)).toBeCloseTo(0, 9)
    expect(axisOf(sealed, "left pad", 0, last)[2]!).toBeCloseTo(0, 9)
    expect(sizeOf(lifted, "left pad")[0]! * axisOf(lifted, "left pad", 0, last)[2]!).toBeCloseTo(-0.06, 9)
  })
})
