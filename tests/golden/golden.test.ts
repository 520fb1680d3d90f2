import { readdirSync } from "node:fs"
import { describe, expect, test } from "vitest"
import { answerOf } from "../../src/experiments/report/answer.ts"
import type { RunResults } from "../../src/experiments/results.ts"
import { runExperiment } from "../../src/experiments/run/run-experiment.ts"
import { csvOf } from "../../src/experiments/write/csv.ts"
import { tableOf } from "../../src/experiments/write/table.ts"
import { expectedText, forgetChanged, runtime, shipped, writeText } from "./shipped.ts"

/** What other runtimes may differ by: one unit of the ninth place, the last one the table prints. */
const ELSEWHERE = 1.5e-9

const experiments = shipped()
const isUpdate = process.env.GOLDEN_UPDATE === "1"

/** Numbers and words of a table; two tables are alike when words are equal and numbers nearly. */
function isAlike(found: string, expected: string): boolean {
  const [a, b] = [found.split(/[,\r\n]+/), expected.split(/[,\r\n]+/)]
  if (a.length !== b.length) return false
  return a.every((field, i) => {
    const [x, y] = [Number(field), Number(b[i])]
    if (field === b[i]) return true
    return field !== "" && b[i] !== "" && Math.abs(x - y) <= ELSEWHERE * Math.max(1, Math.abs(x), Math.abs(y))
  })
}

function rowsOf(results: RunResults): string {
  return csvOf(tableOf(results)).replaceAll("\r\n", "\n")
}

describe("every shipped experiment", () => {
  // seen to fail: the reaction's median in milliseconds 5 % longer
  test.each(experiments)("$name gives its golden rows; npm run golden writes them anew", async (experiment) => {
    const options = { version: "golden", workers: 1, assumptions: false, pictures: false }
    const results = await runExperiment(experiment, options)
    const rows = rowsOf(results)
    const answer = `${answerOf(results).headline}\n`
    const made = expectedText(".", "runtime.txt")?.trim() ?? ""
    for (const [file, text] of [
      ["rows.csv", rows],
      ["answer.txt", answer],
    ] as const) {
      const expected = expectedText(experiment.name, file)
      // the same engine and processor give the same bytes; others the same numbers to nine digits
      const same =
        expected !== null && (made === runtime() || file !== "rows.csv" ? text === expected : isAlike(text, expected))
      forgetChanged(experiment.name, file)
      if (isUpdate) writeText(experiment.name, file, text, false)
      else if (!same) writeText(experiment.name, file, text, true)
      expect(same || isUpdate, `${experiment.name}/${file} has changed: compare it with the one beside it`).toBe(true)
    }
    if (isUpdate) writeText(".", "runtime.txt", `${runtime()}\n`, false)
  })

  test("has a golden folder, and every folder an experiment", () => {
    const folders = readdirSync(new URL(".", import.meta.url), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    )
    expect(folders.map((entry) => entry.name).sort()).toEqual(experiments.map(({ name }) => name).sort())
  })

  test("asks a question, says why, and names a seed of its own", () => {
    const wrong = experiments.filter(({ question, why }) => !/^[A-Z].*\?$/s.test(question.trim()) || why.length < 20)
    expect(wrong.map(({ name }) => name)).toEqual([])
    expect(new Set(experiments.map(({ seed }) => seed)).size).toBe(experiments.length)
  })
})

describe("rows from another runtime", () => {
  test("may differ in the ninth place and in nothing else", () => {
    expect(isAlike("a,0.912345678\n", "a,0.912345679\n")).toBe(true)
    expect(isAlike("a,0.9123456\n", "a,0.9123457\n")).toBe(false)
    expect(isAlike("a,0.9\n", "b,0.9\n")).toBe(false)
    expect(isAlike("a,\n", "a,0\n")).toBe(false)
    expect(isAlike("a,1\nb,2\n", "a,1\n")).toBe(false)
  })
})
