import { describe, expect, test } from "vitest"
import { fillLanding, type ReleasePlace } from "../../../src/models/shooter/landing.ts"
import { type MouthGrid, mouthGrid } from "../../../src/sim/mouth-grid.ts"

const DEGREE = Math.PI / 180

interface Aim {
  y: number
  z: number
  error: { azimuth: number; elevation: number }
}

function landing(place: ReleasePlace, aim: Aim, grid: MouthGrid) {
  const out = { columns: new Float64Array(grid.columns), rows: new Float64Array(grid.rows), index: 0 }
  fillLanding(place, aim, grid, out)
  return out
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0)
}

/** A small seeded generator of normals: 32-bit congruential steps through Box and Muller's transform. */
function normals(seed: number): () => number {
  let state = seed | 0
  const uniform = () => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0
    return ((state >>> 0) + 0.5) / 2 ** 32
  }
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
}

describe("fillLanding()", () => {
  const error = { azimuth: 2 * DEGREE, elevation: 1.8 * DEGREE }

  test("puts a perfect shot into the cell it is aimed at", () => {
    const grid = mouthGrid(0.9, 0, 1.2, 9, 6)
    const { columns, rows } = landing(
      { x: 3, y: 5, z: 0.02 },
      { y: 0.1, z: 0.5, error: { azimuth: 0, elevation: 0 } },
      grid,
    )
    expect(columns[4]).toBe(0) // 0.1 is the edge of column 4 and belongs to column 5
    expect(sum(columns)).toBe(1)
    expect(rows[2]).toBe(1)
  })

  test("loses what strays past post and bar, and keeps what strays into the ice", () => {
    // mutation seen to fail: lowest row starts at its lower edge
    const grid = mouthGrid(0.9, 0, 1.2, 9, 6)
    const low = landing({ x: 8, y: 0, z: 0.02 }, { y: 0.9, z: 0.02, error }, grid)
    expect(sum(low.columns)).toBeCloseTo(0.5, 2)
    expect(sum(low.rows)).toBeCloseTo(1, 5)
    const high = landing({ x: 8, y: 0, z: 0.02 }, { y: 0, z: 1.2, error }, grid)
    expect(sum(high.rows)).toBeCloseTo(0.5, 12)
  })

  test("foreshortens: from a sharp angle the same error spreads 1 / cos(angle) wider along the goal line", () => {
    // mutation seen to fail: edges taken as lengths
    const grid = mouthGrid(0.001, 0, 1.2, 1, 1)
    const density = (angle: number) => {
      const place = { x: 8 * Math.cos(angle), y: 8 * Math.sin(angle), z: 0.02 }
      return landing(place, { y: 0, z: 0.02, error }, grid).columns[0]!
    }
    expect(density(0) / density(60 * DEGREE)).toBeCloseTo(2, 3)
    expect(density(0) / density(75 * DEGREE)).toBeCloseTo(1 / Math.cos(75 * DEGREE), 2)
  })

  test("mirrors with the place and the aim", () => {
    const grid = mouthGrid(0.9, 0, 1.2, 9, 6)
    const right = landing({ x: 5, y: -3, z: 0.02 }, { y: 0.4, z: 0.5, error }, grid)
    const left = landing({ x: 5, y: 3, z: 0.02 }, { y: -0.4, z: 0.5, error }, grid)
    for (let i = 0; i < 9; i++) expect(left.columns[8 - i]).toBeCloseTo(right.columns[i]!, 12)
  })

  test("agrees with drawn shots, n = 40,000 seed 7, |z| < 4 in every cell", () => {
    // a referee that turns the aimed direction by drawn angles and walks to the goal plane
    const grid = mouthGrid(0.9, 0, 1.2, 6, 4)
    const place = { x: 4, y: 2.5, z: 0.02 }
    const aim = { y: -0.2, z: 0.55, error }
    const run = Math.hypot(place.x, aim.y - place.y)
    const draw = normals(7)
    const n = 40_000
    const columns = new Float64Array(6)
    const rows = new Float64Array(4)
    for (let shot = 0; shot < n; shot++) {
      const azimuth = Math.atan2(aim.y - place.y, place.x) + error.azimuth * draw()
      const elevation = Math.atan2(aim.z - place.z, run) + error.elevation * draw()
      const y = place.y + place.x * Math.tan(azimuth)
      const z = Math.max(0, place.z + run * Math.tan(elevation))
      if (Math.abs(y) < 0.9) columns[Math.floor((y + 0.9) / 0.3)]! += 1
      if (z < 1.2) rows[Math.floor(z / 0.3)]! += 1
    }
    const expected = landing(place, aim, grid)
    const deviation = (seen: number, p: number) => (seen - n * p) / Math.sqrt(n * p * (1 - p) + 1e-9)
    for (let i = 0; i < 6; i++) expect(Math.abs(deviation(columns[i]!, expected.columns[i]!))).toBeLessThan(4)
    for (let i = 0; i < 4; i++) expect(Math.abs(deviation(rows[i]!, expected.rows[i]!))).toBeLessThan(4)
  })
})
