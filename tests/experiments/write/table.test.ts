import { parquetReadObjects } from "hyparquet"
import { describe, expect, test } from "vitest"
import { MEASURE_KEYS, MEASURES, measureOf } from "../../../src/experiments/measures.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { csvOf } from "../../../src/experiments/write/csv.ts"
import { RESULTS_FORMAT, resultsJsonOf } from "../../../src/experiments/write/json.ts"
import { manifestOf } from "../../../src/experiments/write/manifest.ts"
import { numberText, tableNumber } from "../../../src/experiments/write/number-text.ts"
import { parquetOf } from "../../../src/experiments/write/parquet.ts"
import { tableOf } from "../../../src/experiments/write/table.ts"
import { columnOf } from "../../../src/experiments/write/unit-suffix.ts"
import { depthAlone, depthByDistance, depthByPassSpeed, stanceByCase } from "../fixture-results.ts"

/** A small reader of RFC 4180, independent of the writer. */
function readCsv(text: string): string[][] {
  const rows: string[][] = [[]]
  let field = ""
  let quoted = false
  for (let at = 0; at < text.length; at++) {
    const character = text[at]!
    if (quoted && character === '"' && text[at + 1] === '"') field += text[++at]
    else if (character === '"') quoted = !quoted
    else if (!quoted && character === ",") {
      rows.at(-1)!.push(field)
      field = ""
    } else if (!quoted && character === "\r") continue
    else if (!quoted && character === "\n") {
      rows.at(-1)!.push(field)
      field = ""
      rows.push([])
    } else field += character
  }
  return rows.slice(0, -1)
}

function renamed(results: RunResults, name: string): RunResults {
  return { ...results, points: results.points.map((point) => ({ ...point, case: name })) }
}

describe("the tidy table", () => {
  test("tableOf() gives one row for each point, swept columns first with the unit of the file", () => {
    const table = tableOf(depthByPassSpeed())
    expect(table.rows).toBe(65)
    // mutation seen red: SI values left as they are (13.9 instead of 50)
    expect(table.columns.slice(0, 4).map(({ name }) => name)).toEqual([
      "goalie.depth_m",
      "play.pass_speed_kmh",
      "case",
      "spot",
    ])
    expect(table.columns[1]!.values.slice(0, 5)).toEqual([50, 60, 70, 80, 90])
    expect(table.columns.every(({ values }) => values.length === 65)).toBe(true)
  })

  test("tableOf() writes the intervals of sampled measures, none for exact ones, then differences, assumptions, shots and seed", () => {
    const names = tableOf(depthAlone()).columns.map(({ name }) => name)
    expect(names).toContain("save_rate_low")
    expect(names).not.toContain("net_covered_low")
    // mutation seen red: assumption columns before the differences
    const expected = [
      "save_rate",
      "net_covered",
      "save_rate_vs_baseline_high",
      "save_rate_assumptions_low",
      "shots",
      "seed",
    ]
    const places = expected.map((name) => names.indexOf(name))
    expect(places.every((place, at) => place > (places[at - 1] ?? 0))).toBe(true)
    expect(names).toContain("save_rate_vs_baseline_assumptions_high")
  })

  test("tableOf() names a swept choice without a unit", () => {
    const table = tableOf(stanceByCase())
    expect(table.columns[0]).toMatchObject({ name: "goalie.stance", kind: "text" })
    expect(table.columns[0]!.values[1]).toBe("set")
  })

  test("columnOf() ends a key with its unit in letters only", () => {
    expect(columnOf("shooter.speed", "m/s")).toBe("shooter.speed_mps")
    expect(columnOf("play.angle", "deg")).toBe("play.angle_deg")
    expect(columnOf("goalie.leak", "")).toBe("goalie.leak")
  })

  test("measures have keys without duplicates, and a definition each", () => {
    expect(new Set(MEASURE_KEYS).size).toBe(MEASURES.length)
    expect(MEASURES.every(({ key, definition }) => /^[a-z0-9_]+$/.test(key) && definition.length > 10)).toBe(true)
    expect(measureOf("save_rate")?.kind).toBe("sampled")
    expect(measureOf("save rate")).toBeUndefined()
  })
})

describe("results.csv", () => {
  test("csvOf() reads back to the same table", () => {
    const table = tableOf(depthByDistance())
    const [header, ...rows] = readCsv(csvOf(table))
    expect(header).toEqual(table.columns.map(({ name }) => name))
    expect(rows.length).toBe(table.rows)
    for (const [at, column] of table.columns.entries()) {
      const expected = column.kind === "text" ? column.values : column.values.map((value) => numberText(value))
      expect(rows.map((row) => row[at])).toEqual(expected)
    }
  })

  test("csvOf() quotes commas, quotes and line ends as RFC 4180 says", () => {
    // mutation seen red: inner quotes not doubled
    const name = 'slot, "high"\r\nand wide'
    const text = csvOf(tableOf(renamed(depthAlone(), name)))
    expect(text).toContain('"slot, ""high""\r\nand wide"')
    expect(text.endsWith("\r\n")).toBe(true)
  })

  test("numberText() is stable: nine digits, no signed zero, empty where there is no number", () => {
    expect(numberText(0.1 + 0.2)).toBe("0.3")
    expect(numberText(-0)).toBe("0")
    expect(Object.is(tableNumber(-0), 0)).toBe(true)
    expect(numberText(Number.NaN)).toBe("")
    expect(numberText(Number.POSITIVE_INFINITY)).toBe("")
    expect(numberText(null)).toBe("")
  })

  test("csvOf() and resultsJsonOf() give the same text for the same results", () => {
    expect(csvOf(tableOf(depthByDistance()))).toBe(csvOf(tableOf(depthByDistance())))
    expect(resultsJsonOf(depthByDistance())).toBe(resultsJsonOf(depthByDistance()))
  })
})

describe("results.parquet", () => {
  test("parquetOf() reads back to the numbers and texts of the table, missing numbers as null", async () => {
    const results = depthAlone()
    const points = results.points.map((point, at) => (at === 3 ? { ...point, estimates: {} } : point))
    const table = tableOf({ ...results, points })
    const bytes = await parquetOf(table, { seed: "Northlake" })
    const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) as ArrayBuffer
    const rows = await parquetReadObjects({ file })
    expect(rows.length).toBe(table.rows)
    for (const column of table.columns) expect(rows.map((row) => row[column.name])).toEqual([...column.values])
    expect(rows[3]!.save_rate).toBeNull()
  })

  test("parquetOf() gives the same bytes for the same table", async () => {
    const table = tableOf(depthAlone())
    expect(await parquetOf(table, { seed: "a" })).toEqual(await parquetOf(table, { seed: "a" }))
  })
})

describe("results.json and manifest.json", () => {
  test("resultsJsonOf() is versioned, keeps infinity apart from none, and lists only what a point changes", () => {
    const document = JSON.parse(resultsJsonOf(depthByDistance()))
    expect(document).toMatchObject({ format: "goalmouth results", formatVersion: RESULTS_FORMAT, version: "0.1.0" })
    // mutation seen red: JSON.stringify without the replacer makes Infinity null
    expect(document.reachMaps[0].milliseconds.flat()).toContain("Infinity")
    expect(document.reachMaps[0].milliseconds.flat()).toContain(null)
    expect(document.experiment.points[0]).toEqual({ index: 0, case: "4 m, tight in", swept: [0], changes: {} })
  })

  test("results hold no duration, hardware or worker count: these stand in the manifest alone", () => {
    const facts = { fileHash: "ab12", durationSeconds: 12.5, hardware: "2 x Zeta", workers: 2, stoppedBy: "shots" }
    const manifest = JSON.parse(manifestOf(depthAlone(), facts, ["results.csv", "charts/curve.svg"]))
    expect(manifest).toMatchObject({
      ...facts,
      seed: "Northlake",
      version: "0.1.0",
      files: ["charts/curve.svg", "results.csv"],
    })
    expect(resultsJsonOf(depthAlone())).not.toMatch(/duration|hardware|workers/i)
  })
})
