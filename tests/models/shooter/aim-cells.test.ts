import { describe, expect, test } from "vitest"
import { defaultSettings, type Settings, withSettings } from "../../../src/models/settings.ts"
import { type AimCell, aimCells, aimShares } from "../../../src/models/shooter/aim-cells.ts"

const MOUTH = { right: -0.8763, left: 0.8763, bottom: 0.0127, top: 1.2065 }

function aiming(aim: string, quantities: Record<string, number> = {}): Settings {
  return withSettings(defaultSettings(), { choices: { "shooter.aim": aim }, quantities })
}

function area(cells: readonly AimCell[]): number {
  return cells.reduce((sum, cell) => sum + (cell.yHigh - cell.yLow) * (cell.zHigh - cell.zLow), 0)
}

describe("aimCells()", () => {
  const mouthArea = (MOUTH.left - MOUTH.right) * (MOUTH.top - MOUTH.bottom)

  test("tile the mouth with six zones, and with the grid of a reading shooter", () => {
    expect(aimCells(aiming("zones"), MOUTH)).toHaveLength(6)
    expect(area(aimCells(aiming("zones"), MOUTH))).toBeCloseTo(mouthArea, 12)
    expect(aimCells(aiming("reads"), MOUTH)).toHaveLength(60)
    expect(area(aimCells(aiming("reads"), MOUTH))).toBeCloseTo(mouthArea, 12)
  })

  test("are four points inside the mouth for corners, and two where the inset is half its height", () => {
    // mutation seen to fail: inset added to the half-width
    for (const inset of [0, 0.08, 0.15, 0.6]) {
      const cells = aimCells(aiming("corners", { "shooter.corner_inset": inset }), MOUTH)
      expect(new Set(cells.map((cell) => `${cell.yLow} ${cell.zLow}`)).size).toBe(inset < 0.6 ? 4 : 2)
      for (const cell of cells) {
        expect(cell.yLow).toBe(cell.yHigh)
        expect(Math.abs(cell.yLow)).toBeLessThanOrEqual(MOUTH.left)
        expect(cell.zLow).toBeGreaterThanOrEqual(MOUTH.bottom)
        expect(cell.zHigh).toBeLessThanOrEqual(MOUTH.top)
      }
    }
  })

  test("stay within what is seen where a post hides a part, hidden zones as strips along its edge", () => {
    // mutation seen to fail: the middle zones cut at the middle of what is seen
    const seen = { ...MOUTH, right: 0.4 }
    for (const aim of ["zones", "reads", "corners"]) {
      const cells = aimCells(aiming(aim), seen)
      for (const { yLow, yHigh } of cells) {
        expect(yLow).toBeGreaterThanOrEqual(0.4)
        expect(yHigh).toBeLessThanOrEqual(MOUTH.left)
      }
      if (aim !== "corners") expect(area(cells)).toBeCloseTo((MOUTH.left - 0.4) * (MOUTH.top - MOUTH.bottom), 12)
    }
    const across = aimCells(aiming("zones", { "shooter.zone_middle_width": 0.6 }), seen).slice(0, 3)
    expect(across.map(({ yHigh }) => Number(yHigh.toFixed(9)))).toEqual([0.42, 0.42, MOUTH.left])
  })

  test("are one point without size for a point", () => {
    const cells = aimCells(aiming("point", { "shooter.aim_y": -0.4, "shooter.aim_z": 0.9 }), MOUTH)
    expect(cells).toEqual([{ yLow: -0.4, yHigh: -0.4, zLow: 0.9, zHigh: 0.9 }])
  })
})

describe("aimShares()", () => {
  test("sum to 1 for each policy that does not look at the goalie", () => {
    for (const aim of ["point", "corners", "zones"]) {
      const shares = aimShares(aiming(aim), "left")
      expect(shares).toHaveLength(aimCells(aiming(aim), MOUTH).length)
      expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    }
  })

  test("put the glove side at +y for a goalie who catches left, at -y for one who catches right", () => {
    // mutation seen to fail: hands swapped
    const glove = aiming("zones", {
      "shooter.zone_low_blocker": 0,
      "shooter.zone_five_hole": 0,
      "shooter.zone_high_glove": 0,
      "shooter.zone_high_blocker": 0,
      "shooter.zone_middle": 0,
    })
    const picked = (catches: string) => aimCells(glove, MOUTH)[aimShares(glove, catches).indexOf(1)]!
    expect(picked("left").yLow).toBeGreaterThan(0)
    expect(picked("right").yHigh).toBeLessThan(0)
    expect(picked("left").zLow).toBe(MOUTH.bottom)
  })

  test("give the low corners their share", () => {
    const shares = aimShares(aiming("corners", { "shooter.corner_low_share": 0.7 }), "left")
    expect([...shares].map((share) => Number(share.toFixed(12)))).toEqual([0.35, 0.35, 0.15, 0.15])
  })

  test("cannot be made of zones that all weigh nothing", () => {
    const none = Object.fromEntries(
      ["low_glove", "low_blocker", "five_hole", "high_glove", "high_blocker", "middle"].map((zone) => [
        `shooter.zone_${zone}`,
        0,
      ]),
    )
    expect(() => aimShares(aiming("zones", none), "left")).toThrow(
      "Cannot aim at zones as the sum of the shooter.zone weights must be > 0: current value is 0",
    )
  })
})
