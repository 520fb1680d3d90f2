import { describe, expect, test } from "vitest"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import { aimCells } from "../../../src/models/shooter/aim-cells.ts"
import {
  bodyPlace,
  expectedGoals,
  landingTable,
  openingGrid,
  readShares,
  readsFrom,
  softmax,
} from "../../../src/models/shooter/reading.ts"

const MOUTH = { right: -0.8763, left: 0.8763, bottom: 0.0127, top: 1.2065 }
const GRID = openingGrid(MOUTH)
const CELLS = aimCells(defaultSettings(), MOUTH)
const OPEN = new Float64Array(GRID.columns * GRID.rows).fill(1)

function tableFrom(x: number, y = 0, quantities: Record<string, number> = {}) {
  return landingTable(withSettings(defaultSettings(), { quantities }), { x, y, z: 0.02 }, CELLS, GRID)
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0)
}

/** Open only in the half of the mouth at the goalie's left. */
const LEFT_OPEN = OPEN.map((_, i) => (i % GRID.columns >= GRID.columns / 2 ? 1 : 0))

describe("softmax()", () => {
  const all = new Uint8Array(4).fill(1)
  const expected = Float64Array.of(0.2, 0.5, 0.1, 0.4)

  test("sums to 1 and is exp(value / temperature) up to a factor", () => {
    const shares = softmax(expected, 0.08, all)
    expect(sum(shares)).toBeCloseTo(1, 12)
    expect(shares[1]! / shares[3]!).toBeCloseTo(Math.exp(0.1 / 0.08), 10)
  })

  test("picks the best as the temperature falls to zero, the best ones alike at zero", () => {
    expect(softmax(expected, 1e-4, all)[1]).toBeCloseTo(1, 12)
    expect([...softmax(expected, 0, all)]).toEqual([0, 1, 0, 0])
    expect([...softmax(Float64Array.of(1, 0, 1, 0), 0, all)]).toEqual([0.5, 0, 0.5, 0])
  })

  test("is uniform as the temperature grows", () => {
    for (const share of softmax(expected, 1e9, all)) expect(share).toBeCloseTo(0.25, 8)
  })

  test("gives nothing to what is not allowed, be it the best", () => {
    // mutation seen to fail: best taken over all cells at temperature 0
    expect([...softmax(expected, 0, Uint8Array.of(1, 0, 1, 1))]).toEqual([0, 0, 0, 1])
  })
})

describe("readShares()", () => {
  test("sum to 1 and prefer the open side", () => {
    const shares = readShares(LEFT_OPEN, tableFrom(8), 0.08, 1)
    expect(sum(shares)).toBeCloseTo(1, 12)
    const left = shares.filter((_, i) => CELLS[i]!.yLow >= -1e-9)
    expect(sum(left)).toBeGreaterThan(0.99)
  })

  test("are bit for bit the same whatever is open when the shooter is blind", () => {
    // mutation seen to fail: reading read as 1 - reading
    const table = tableFrom(8)
    const blind = readShares(LEFT_OPEN, table, 0.08, 0)
    expect(blind).toEqual(readShares(OPEN, table, 0.08, 0))
    expect(blind).toEqual(readShares([], table, 0.08, 0))
    expect(new Set(blind).size).toBe(1)
  })

  test("lie between blind and seeing for a shooter who reads in part", () => {
    const table = tableFrom(8)
    const [blind, half, full] = [0, 0.5, 1].map((reading) => readShares(LEFT_OPEN, table, 0.08, reading))
    for (let i = 0; i < CELLS.length; i++) expect(half![i]).toBeCloseTo((blind![i]! + full![i]!) / 2, 12)
  })

  test("do not aim steeper than 22 degrees in tight, yet always aim at something", () => {
    // mutation seen to fail: no cell is forbidden
    const near = readShares(OPEN, tableFrom(1.5), 1e9, 1)
    for (const [i, cell] of CELLS.entries()) {
      const slope = ((cell.zLow + cell.zHigh) / 2 - 0.02) / Math.hypot(1.5, (cell.yLow + cell.yHigh) / 2)
      expect(near[i]! > 0).toBe(slope <= 0.4)
    }
    const flat = tableFrom(1, 0, { "shooter.steepest_aim": 0.02 })
    const lowest = readShares(OPEN, flat, 0.08, 1)
    expect(sum(lowest)).toBeCloseTo(1, 12)
    for (const [i, cell] of CELLS.entries()) expect(lowest[i]! > 0).toBe(cell.zLow === MOUTH.bottom)
    expect(readShares(OPEN, tableFrom(12), 0.08, 1).every((share) => share > 0)).toBe(true)
  })
})

describe("expectedGoals()", () => {
  test("is certain for a perfect shooter at an open mouth, and lower near the iron for one who strays", () => {
    const perfect = expectedGoals(OPEN, tableFrom(8, 0, { "shooter.aim_error": 0 }))
    for (const chance of perfect) expect(chance).toBeCloseTo(1, 12)
    const real = expectedGoals(OPEN, tableFrom(8))
    const topCorner = real[CELLS.length - 1]!
    const middle = real[CELLS.findIndex((cell) => cell.yHigh > 0.01 && cell.zHigh > 0.6)]!
    expect(topCorner).toBeLessThan(0.5)
    expect(middle).toBeGreaterThan(0.95)
  })

  test("mirrors with the place and the openings", () => {
    const right = expectedGoals(LEFT_OPEN, tableFrom(6, -4))
    const left = expectedGoals(
      LEFT_OPEN.map((open) => 1 - open),
      tableFrom(6, 4),
    )
    for (let row = 0; row < 6; row++)
      for (let column = 0; column < 10; column++)
        expect(left[row * 10 + 9 - column]).toBeCloseTo(right[row * 10 + column]!, 12)
  })

  test("falls at a sharp angle, where the mouth is narrow", () => {
    const best = (angle: number) =>
      Math.max(...expectedGoals(OPEN, tableFrom(8 * Math.cos(angle), 8 * Math.sin(angle))))
    expect(best(1.3)).toBeLessThan(best(0.8))
    expect(best(0.8)).toBeLessThan(best(0))
  })
})

describe("bodyPlace() and readsFrom()", () => {
  const hand = (left: string, shot = "wrist") =>
    withSettings(defaultSettings(), { choices: { "shooter.hand": left, "shooter.shot": shot } })

  test("stand the body at the goalie's left of the puck for a left shot from straight ahead", () => {
    // facing the goal, the left shot's blade is on the left, which is the goalie's right; mutation: hands swapped
    const body = bodyPlace(hand("left"), 8, 0)
    expect(body.x).toBeCloseTo(8.4, 12)
    expect(body.y).toBeCloseTo(0.9, 12)
  })

  test("mirror for a right shot, and swap sides for a backhand", () => {
    expect(bodyPlace(hand("right"), 8, 0).y).toBeCloseTo(-0.9, 12)
    expect(bodyPlace(hand("left", "backhand"), 8, 0).y).toBeCloseTo(-0.9, 12)
  })

  test("keep reach and distance behind at any angle", () => {
    const { x, y } = bodyPlace(hand("left"), 3, 4)
    expect((x - 3) * 0.6 + (y - 4) * 0.8).toBeCloseTo(0.4, 12)
    expect(Math.hypot(x - 3, y - 4)).toBeCloseTo(Math.hypot(0.4, 0.9), 12)
  })

  test("read from the puck itself, or from the eyes above the body", () => {
    const place = { x: 8, y: 0, z: 0.02 }
    expect(readsFrom(hand("left"), place)).toEqual(place)
    const eyes = readsFrom(withSettings(hand("left"), { choices: { "shooter.reads_from": "eyes" } }), place)
    expect(eyes.z).toBe(1.6)
    expect(eyes.y).toBeCloseTo(0.9, 12)
  })
})
