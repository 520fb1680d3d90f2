import { describe, expect, test } from "vitest"
import { fiveHoleArea, goalie, openShare, sizeOf } from "./bodies.ts"

describe("stature, mass and gear", () => {
  const statures = [1.6, 1.7, 1.8, 1.88, 1.96, 2.04]

  // seen red: widths, heights of the hips and ankles multiplied with stature over 1.88 m
  test("a taller goalie's five-hole does not grow, standing or half down", () => {
    for (const phase of [0, 4]) {
      const areas = statures.map((stature) => fiveHoleArea(goalie({ stature }), phase))
      for (let i = 1; i < areas.length; i++) expect(areas[i]!).toBeLessThan(areas[i - 1]! * 1.002)
    }
  })

  // seen red: pad length multiplied with stature
  test("gear stays at the code's maxima while the body grows", () => {
    const [small, tall] = [goalie({ stature: 1.7 }), goalie({ stature: 2.04 })]
    for (const part of ["left pad", "blocker", "catching glove", "stick blade", "paddle"] as const) {
      expect(sizeOf(tall, part)).toEqual(sizeOf(small, part))
    }
    for (const part of ["torso", "left forearm", "left upper arm", "mask"] as const) {
      expect(sizeOf(tall, part)[0]! / sizeOf(small, part)[0]!).toBeGreaterThan(1.08)
    }
  })

  // seen red: hands drawn in as the body grows
  test("a taller goalie leaves less of the mouth open", () => {
    const open = [1.7, 1.88, 2.04].map((stature) => openShare(goalie({ stature }), 8, 1))
    expect(open[1]!).toBeLessThan(open[0]!)
    expect(open[2]!).toBeLessThan(open[1]!)
  })

  // seen red: girth taken as the ratio of masses without its square root
  test("a heavier goalie of the same stature is wider and deeper by the square root of mass, and no longer", () => {
    const padding = 2 * 0.05
    const [light, heavy] = [goalie({ mass: 80 }), goalie({ mass: 96.8 })]
    const [a, b] = [sizeOf(light, "torso"), sizeOf(heavy, "torso")]
    expect(b[0]!).toBeCloseTo(a[0]!, 12)
    expect((b[1]! - padding) / (a[1]! - padding)).toBeCloseTo(1.1, 9)
    expect((b[2]! - padding) / (a[2]! - padding)).toBeCloseTo(1.1, 9)
  })

  test("mass that is not given follows the stature: 1.88 m is 90 kg", () => {
    expect(sizeOf(goalie(), "torso")).toEqual(sizeOf(goalie({ mass: 90 }), "torso"))
  })

  // seen red: youth gear left at the adult maxima
  test("a youth goalie of 1.40 m wears gear scaled by 1.40 over 1.75 and covers less than an adult", () => {
    const [youth, adult] = [goalie({ stature: 1.4, mass: 35 }, { gear: "youth" }), goalie()]
    for (const part of ["left pad", "blocker", "catching glove", "paddle"] as const) {
      const [small, large] = [sizeOf(youth, part), sizeOf(adult, part)]
      expect(small[0]! / large[0]!).toBeCloseTo(0.8, 9)
      expect(small[1]! / large[1]!).toBeCloseTo(0.8, 9)
    }
    expect(openShare(youth, 8, 1)).toBeGreaterThan(openShare(adult, 8, 1) + 0.1)
  })

  test("measured gear takes the place of the code's", () => {
    const posture = goalie({ pad_width: 0.25, blocker_length: 0.34, blade_length: 0.36 })
    expect(sizeOf(posture, "left pad")[1]!).toBeCloseTo(0.25, 12)
    expect(sizeOf(posture, "blocker")[0]!).toBeCloseTo(0.34, 12)
    expect(sizeOf(posture, "stick blade")[0]!).toBeCloseTo(0.36, 12)
  })

  test("the glove is as far around as its perimeter", () => {
    const posture = goalie()
    const [height, breadth, depth] = sizeOf(posture, "catching glove")
    const rounding = depth! / 2
    const around = 2 * (height! - 2 * rounding + breadth! - 2 * rounding) + 2 * Math.PI * rounding
    expect(around).toBeCloseTo(1.143, 9)
  })
})
