import { describe, expect, test } from "vitest"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"
import { aimedError } from "../../src/models/shooter/accuracy.ts"
import { agrees, cornerHit, PUBLISHED_SHOTS } from "../../src/models/shooter/published.ts"
import { shotSpeed } from "../../src/models/shooter/speed.ts"
import { cumulativeNormal } from "../../src/sim/random/normal.ts"

const DEGREE = Math.PI / 180

function speed(shot: string, level = "professional") {
  return shotSpeed(withSettings(defaultSettings(), { choices: { "shooter.shot": shot, "shooter.level": level } }), 10)
}

describe("published shot speeds", () => {
  test("the slap shot's mean lies between those of two groups of elite men", () => {
    // source: Woo, Loh, Turcotte, Pearsall 2008, 29.14 ± 1.39 m/s, 5 elite men
    expect(speed("slap").mean).toBeGreaterThan(29.14)
    // source: Villasenor, Turcotte, Pearsall 2006, J Appl Biomech 22(3):202, 33.3 ± 5.0 m/s, 4 elite men
    expect(speed("slap").mean).toBeLessThan(33.3)
    // source: both, mean and spread pooled by number
    const pooled = (5 * 29.14 + 4 * 33.3) / 9
    const within = (4 * 1.39 ** 2 + 3 * 5 ** 2) / 8
    const between = (5 * (29.14 - pooled) ** 2 + 4 * (33.3 - pooled) ** 2) / 8
    expect(Math.abs(speed("slap").mean - pooled)).toBeLessThan(0.1)
    expect(Math.abs(speed("slap").sd - Math.sqrt(within + between))).toBeLessThan(0.2)
  })

  test("the best of many shots is near the best readings of a camp of professional prospects", () => {
    const best = (shot: string) => speed(shot).mean + 2 * speed(shot).sd
    // source: camp radar report 2008, slap shot 34.9 to 41.6 m/s
    expect(best("slap")).toBeGreaterThan(34.9)
    expect(best("slap")).toBeLessThan(41.6)
    // source: camp radar report 2008, wrist or snap at most 33.1 m/s, within 1 to 2 mph of each other
    expect(Math.abs(best("wrist") - 33.1)).toBeLessThan(1)
    expect(Math.abs(speed("snap").mean - speed("wrist").mean)).toBeLessThan(0.9)
    // source: camp radar report 2008, backhand at most 21.9 m/s
    expect(Math.abs(best("backhand") - 21.9)).toBeLessThan(1.5)
  })

  test("wrist shots of juniors and children cover the range of men from novice to varsity", () => {
    // source: Michaud-Paquette, Pearsall, Turcotte 2009, Sports Eng 11:75-84, 13.0 to 24.1 m/s
    expect(Math.abs(speed("wrist", "junior").mean - 24.1)).toBeLessThan(1)
    expect(Math.abs(speed("wrist", "under-11").mean - 13)).toBeLessThan(1)
  })

  test("slap shots are faster than wrist shots, and speed rises with level", () => {
    // source: Alexander, Haddow, Schultz 1963, Res Quart 34:259-266
    expect(speed("slap").mean).toBeGreaterThan(speed("wrist").mean)
    expect(speed("slap").mean).toBeGreaterThan(speed("slap", "junior").mean)
  })
})

describe("published accuracy", () => {
  test("a corner rate of .67 is 1.6 degrees and one of .45 is 2.2 degrees, if the target is 0.3 m wide", () => {
    // source: closed form P = erf(a / (L s sqrt 2))² for a normal error s, half-width a = 0.15 m, L = 4 m
    const hit = (degrees: number) => (2 * cumulativeNormal(0.15 / (4 * degrees * DEGREE)) - 1) ** 2
    expect(Math.abs(hit(1.6) - 0.67)).toBeLessThan(0.01)
    expect(Math.abs(hit(2.2) - 0.45)).toBeLessThan(0.01)
  })

  test("the landing model is that closed form where its terms are: a top corner, little foreshortened", () => {
    // source: the same closed form; 40 m away a target of 3 m by 3 m would do, so the error is a tenth at 40 m
    const plain = {
      "shooter.vertical_error": 1,
      "shooter.elevation_growth": 0,
      "shooter.close_in_growth": 0,
      "shooter.speed_error": 0,
    }
    const settings = withSettings(defaultSettings(), { quantities: { ...plain, "shooter.aim_error": 0.16 * DEGREE } })
    expect(aimedError(settings, 40, 0).azimuth).toBeCloseTo(0.16 * DEGREE, 12)
    const closed = (2 * cumulativeNormal(0.15 / (40 * 0.16 * DEGREE)) - 1) ** 2
    expect(Math.abs(cornerHit(settings, 40, "top") - closed)).toBeLessThan(0.002)
  })

  test("an unpressed group of juniors and under-15 hits corners from 4 m as often as novice to varsity men", () => {
    // source: Michaud-Paquette 2008 MSc thesis McGill; 2009 Sports Eng 11:75-84: bottom 67 %, top 45 %
    const rows = PUBLISHED_SHOTS.filter((row) => row.what.includes("no opponent"))
    expect(rows.map((row) => row.published)).toEqual([0.67, 0.45])
    for (const row of rows) expect(Math.abs(row.model() - row.published), row.what).toBeLessThan(0.03)
  })

  test("wrist shots stray less than slap shots", () => {
    // source: Alexander, Haddow, Schultz 1963, Res Quart 34:259-266
    const error = (shot: string) =>
      aimedError(withSettings(defaultSettings(), { choices: { "shooter.shot": shot } }), 10, 0).azimuth
    expect(error("wrist")).toBeLessThan(error("slap"))
  })
})

describe("the table of published shots", () => {
  test("gives a reason for every miss and for no agreement", () => {
    // source: PUBLISHED_SHOTS, each row names its own
    for (const row of PUBLISHED_SHOTS) expect(row.reason === "", `${row.what}: ${row.model()}`).toBe(agrees(row))
  })
})
