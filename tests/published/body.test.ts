import { describe, expect, test } from "vitest"
import { GIRTHS, SEGMENTS } from "../../src/models/goalie/body-fractions.ts"
import { bodySize, LEAGUE_BUILD } from "../../src/models/goalie/body-size.ts"
import { anatomicalPadLength, GEAR_CODES, PAD_LENGTH_BY_STATURE } from "../../src/models/goalie/gear-codes.ts"
import { goalieQuantities } from "../../src/models/goalie/parameters.ts"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"

const INCH = 0.0254

describe("the body against published proportions", () => {
  // seen red: thigh .246
  test("segments are the published shares of stature", () => {
    // source: Drillis & Contini 1966 as given by Winter, Biomechanics and Motor Control of Human Movement
    const published = {
      ankleHeight: 0.039,
      kneeHeight: 0.285,
      hipHeight: 0.53,
      shoulderHeight: 0.818,
      eyeHeight: 0.936,
      thigh: 0.245,
      shank: 0.246,
      trunk: 0.288,
      upperArm: 0.186,
      forearm: 0.146,
      hand: 0.108,
      head: 0.13,
      foot: 0.152,
    }
    for (const [name, share] of Object.entries(published)) {
      expect(SEGMENTS[name as keyof typeof SEGMENTS].value, name).toBe(share)
    }
  })

  // seen red: trunk .188
  test("the segments add up to the heights of the joints", () => {
    // source: the same table: ankle .039, knee .285, hip .530, shoulder .818
    expect(SEGMENTS.ankleHeight.value + SEGMENTS.shank.value).toBeCloseTo(SEGMENTS.kneeHeight.value, 12)
    expect(SEGMENTS.kneeHeight.value + SEGMENTS.thigh.value).toBeCloseTo(SEGMENTS.hipHeight.value, 12)
    expect(SEGMENTS.hipHeight.value + SEGMENTS.trunk.value).toBeCloseTo(SEGMENTS.shoulderHeight.value, 12)
  })

  test("breadths agree with the surveyed means within two millimetres at the surveyed stature and mass", () => {
    // source: ANSUR II 2012 public raw files, 4082 men and 1986 women, means in mm
    const surveyed = [
      ["men", 1.7562, 85.52, 415.7, 289.4, 253.8, 345.7, 625.1, 154.3],
      ["women", 1.6285, 67.76, 365.3, 269.3, 247.4, 353.8, 616.1, 147.8],
    ] as const
    for (const [proportions, stature, mass, acromial, chest, depth, hips, thigh, head] of surveyed) {
      const body = bodySize(
        withSettings(defaultSettings(), {
          quantities: { "goalie.stature": stature, "goalie.mass": mass },
          choices: { "goalie.proportions": proportions },
        }),
      )
      expect(Math.abs(2000 * body.halfShoulders - acromial)).toBeLessThan(2)
      expect(Math.abs(2000 * body.halfChest - chest)).toBeLessThan(2)
      expect(Math.abs(2000 * body.halfChestDepth - depth)).toBeLessThan(2)
      expect(Math.abs(2000 * body.halfHips - hips)).toBeLessThan(2)
      expect(Math.abs(2000 * Math.PI * body.thighRadius - thigh)).toBeLessThan(2)
      expect(Math.abs(1000 * body.headBreadth - head)).toBeLessThan(2)
    }
  })

  test("two tables of the arm agree within four hundredths of a stature", () => {
    // source: Winter upper arm .186; ANSUR II acromion to radiale .1909, elbow to centre of grip .1987 (men)
    expect(Math.abs(SEGMENTS.upperArm.value - 0.1909)).toBeLessThan(0.006)
    // source: Winter forearm .146 and half a hand .054 make .200
    expect(Math.abs(SEGMENTS.forearm.value + SEGMENTS.hand.value / 2 - SEGMENTS.forearmToGrip.value)).toBeLessThan(
      0.002,
    )
  })

  test("shoulder and hip heights of the two tables agree within two hundredths of a stature", () => {
    // source: ANSUR II acromial height .8203, trochanter height .5128, mid-patella height .2780 (men)
    expect(Math.abs(SEGMENTS.shoulderHeight.value - 0.8203)).toBeLessThan(0.02)
    expect(Math.abs(SEGMENTS.hipHeight.value - 0.5128)).toBeLessThan(0.02)
    expect(Math.abs(SEGMENTS.kneeHeight.value - 0.278)).toBeLessThan(0.02)
  })

  test("surveyed stature and mass are those the shares go with", () => {
    // source: ANSUR II 2012: men 1756.2 mm and 85.5 kg, women 1628.5 mm and 67.8 kg
    expect(GIRTHS.men).toMatchObject({ stature: 1.7562, mass: 85.52 })
    expect(GIRTHS.women).toMatchObject({ stature: 1.6285, mass: 67.76 })
  })

  test("the default goalie is the mean league goalie of late 2010", () => {
    // source: ingoalmag.com, late 2010: 62 league goalies, mean 6 ft 2 in and 198 lb
    expect(Math.abs(goalieQuantities["goalie.stature"].value - 74 * INCH)).toBeLessThan(0.005)
    expect(Math.abs(LEAGUE_BUILD * 1.88 ** 2 - 198 * 0.45359237)).toBeLessThan(0.5)
  })
})

describe("gear against the rule codes", () => {
  const na = GEAR_CODES["north-american"]!
  const iihf = GEAR_CODES.international!

  // seen red: pad width 0.28
  test("North American maxima in inches", () => {
    // source: ECHL, OHL, QMJHL, NCAA rule 11.2, USA Hockey rule 303(b), Hockey Canada rule 3.5: pads 11 x 38 in
    expect(na.padWidth).toBeCloseTo(11 * INCH, 9)
    expect(na.padLength(1.88)).toBeCloseTo(38 * INCH, 3)
    // source: ECHL rule 11.6, NCAA rule 11.4, USA Hockey rule 303(a): glove perimeter 45 in
    expect(na.glovePerimeter).toBeCloseTo(45 * INCH, 9)
    // source: ECHL rule 11.7, NCAA rule 11.3, USA Hockey rule 303(a): blocker 8 x 15 in
    expect(na.blockerWidth).toBeCloseTo(8 * INCH, 9)
    expect(na.blockerLength).toBeCloseTo(15 * INCH, 9)
    // source: ECHL and OHL rule 11.4: pants 10 in across the thigh
    expect(na.thighGuardWidth).toBeCloseTo(10 * INCH, 9)
    // source: ECHL and WHL rule 10.2, NCAA rule 10.2: blade 15.5 x 3.5 in, paddle 26 x 3.5 in
    expect(na.bladeLength).toBeCloseTo(15.5 * INCH, 9)
    expect(na.bladeHeight).toBeCloseTo(3.5 * INCH, 9)
    expect(na.paddleLength).toBeCloseTo(26 * INCH, 9)
    expect(na.paddleWidth).toBeCloseTo(3.5 * INCH, 9)
  })

  test("international maxima in centimetres", () => {
    // source: IIHF 2022-23 rules 11.2, 11.6, 11.7 p. 54 and equipment graphics: 28; 114.5; 20.5 x 38.5; 25.5
    expect([iihf.padWidth, iihf.glovePerimeter]).toEqual([0.28, 1.145])
    expect([iihf.blockerWidth, iihf.blockerLength, iihf.thighGuardWidth]).toEqual([0.205, 0.385, 0.255])
    // source: IIHF 2014 goalkeeper stick as issued by a national league: blade 39 x 9, paddle 71 x 9, shaft 2.54 cm thick
    expect([iihf.bladeLength, iihf.bladeHeight, iihf.paddleLength, iihf.paddleWidth]).toEqual([0.39, 0.09, 0.71, 0.09])
    expect(goalieQuantities["goalie.stick_thickness"].value).toBe(0.0254)
  })

  test("pad length by stature: 86.5 to 168 cm, 89 to 175, 93 to 182, 96.5 from 183", () => {
    // source: Austrian-based league, goalkeeper leg pads measurement, item 3
    expect(PAD_LENGTH_BY_STATURE.rows).toHaveLength(4)
    const rows = [1.6, 1.68, 1.69, 1.75, 1.76, 1.82, 1.83, 1.95].map((stature) => iihf.padLength(stature))
    expect(rows).toEqual([0.865, 0.865, 0.89, 0.89, 0.93, 0.93, 0.965, 0.965])
  })

  // seen red: 55 % in place of 45 %
  test("the anatomical pad is floor to knee, 45 % of knee to pelvis and 4 in, and never over 38 in", () => {
    // source: WHL rule 11.2 (2019-20), ECHL rule 11.2 (2021-22)
    const stature = 1.88
    expect(anatomicalPadLength(stature)).toBeCloseTo(0.285 * stature + 0.45 * 0.245 * stature + 4 * INCH, 9)
    expect(anatomicalPadLength(2.2)).toBe(0.965)
  })

  test("the boot of a pad is at least 7 in wide", () => {
    // source: WHL and ECHL rule 11.2: boot not under 17.78 cm
    expect(goalieQuantities["goalie.boot_width"].value).toBeCloseTo(7 * INCH, 9)
  })
})
