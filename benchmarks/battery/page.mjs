import { existsSync, readFileSync, writeFileSync } from "node:fs"
import { CONTROL, CONTROL_WHY } from "./control.mjs"
import { ADDRESSINGS } from "./words.mjs"

const PAGE = new URL("../battery.md", import.meta.url)

/** Writes battery.md from the lines that the tests left. */
export function writeBattery(folder, { key, tests, weak, date }) {
  const lines = [
    "# Random words before a published battery",
    "",
    `dieharder 3.31.1 reads the words of the program's streams (Philox4x32-10) in every order in which a run walks through`,
    `their addresses: ${tests.length} tests for each order, every one that dieharder calls good, of the 33 lagged sums six. Written by`,
    `\`npm run build && node benchmarks/battery.mjs\` on ${date}. Every test has words of a key of its own, made from the text`,
    `"${key}", the order, the test's number, its -n, and 0. A p below ${weak} or above ${1 - weak} is weak, which one in a hundred is by`,
    "chance; the test is then made once more, with twice the samples and the words of another key (1 in place of 0).",
    "dieharder calls a p below 0.000001 failed.",
    "",
    "| order | p-values | weak | expected weak | weak again | failed | whole: p of all p-values |",
    "| --- | ---: | ---: | ---: | ---: | ---: | ---: |",
  ]
  const weakOnes = []
  const second = { all: 0, weak: 0 }
  const total = { all: 0, weak: 0 }
  for (const [name, { why }] of [...Object.entries(ADDRESSINGS), [CONTROL, { why: CONTROL_WHY }]]) {
    const file = `${folder}/${name.replace(" ", "-")}.csv`
    if (!existsSync(file)) continue
    const rows = rowsOf(readFileSync(file, "utf8"))
    const first = rows.filter(({ round }) => round === 0)
    const isWeak = ({ p }) => p < weak || p > 1 - weak
    const own = name === CONTROL ? [] : rows.filter(({ round }) => round < 2)
    total.all += own.filter(({ round }) => round === 0).length
    total.weak += own.filter((row) => row.round === 0 && isWeak(row)).length
    second.all += own.filter(({ round }) => round === 1).length
    second.weak += own.filter((row) => row.round === 1 && isWeak(row)).length
    // a test gives several p-values in one order: the same one is asked for again
    const again = first.filter(isWeak).flatMap((row) => {
      const other = rows.find((one) => one.round === 1 && one.test === row.test && one.at === row.at && one.n === row.n)
      weakOnes.push({ order: name, ...row, again: other?.p ?? "not asked yet" })
      return other === undefined ? [] : [other]
    })
    const done = new Set(first.map(({ test, n }) => `${test} ${n}`)).size
    const part = done === tests.length ? "" : `, ${done} of ${tests.length} tests so far`
    const failed = rows.filter(({ round, verdict }) => round < 2 && verdict === "FAILED").length
    const counts = [first.length, first.filter(isWeak).length, (2 * weak * first.length).toFixed(1)]
    const more = [again.filter(isWeak).length, failed, evenness(first.map(({ p }) => p)).toFixed(3)]
    lines.push(`| ${name}: ${why}${part} | ${[...counts, ...more].join(" | ")} |`)
    const repeated = rows.filter(({ round }) => round === 2)
    if (repeated.length > 0) lines.push(repeatedLine(name, repeated, tests.length, isWeak))
  }
  lines.push("", "## Weak at first, and asked again", "")
  lines.push(
    `${total.weak} of ${total.all} p-values of the program's words were weak at first, where ${(2 * weak * total.all).toFixed(1)} are expected of even ones; of all ${second.all} p-values of the tests made`,
    `again ${second.weak}, where ${(2 * weak * second.all).toFixed(1)} are.`,
    "",
  )
  lines.push("| order | test | ntuple | p | p of twice the samples |", "| --- | --- | ---: | ---: | ---: |")
  for (const row of weakOnes)
    lines.push(`| ${row.order} | ${row.test} ${row.name} | ${row.ntuple} | ${row.p} | ${row.again} |`)
  lines.push(
    "",
    "The last column of the first table is Kolmogorov's test of all the p-values of an order against even ones; some tests",
    "give several p-values of the same words, which are not independent of each other. TestU01 and PractRand are in no",
    "package of this system and were not run. dab_filltree is run with its own 32 alone: with an ntuple of 1 it fails the",
    "battery's own mt19937 and R_mersenne_twister too, and of two samples, as in a test made again, it gives those p = 1.",
    "",
  )
  writeFileSync(PAGE, lines.join("\n"))
}

/** The tests of an order once more, of the words of other keys. */
function repeatedLine(name, rows, tests, isWeak) {
  const done = new Set(rows.map(({ test, n }) => `${test} ${n}`)).size
  const part = done === tests ? "" : `, ${done} of ${tests} tests so far`
  const failed = rows.filter(({ verdict }) => verdict === "FAILED").length
  const counts = [rows.length, rows.filter(isWeak).length, (0.01 * rows.length).toFixed(1), "", failed]
  const even = evenness(rows.map(({ p }) => p)).toFixed(3)
  return `| ${name}, every test once more, of the words of other keys (2 in place of 0)${part} | ${counts.join(" | ")} | ${even} |`
}

/** The lines of one order; `at` is the place of a p-value among those of its test. */
function rowsOf(text) {
  const seen = new Map()
  return text
    .trim()
    .split("\n")
    .map((line) => {
      const [test, n, round, name, ntuple, , , p, verdict] = line.split(",")
      const id = `${test} ${n} ${round}`
      seen.set(id, (seen.get(id) ?? 0) + 1)
      return { test, n, round: Number(round), name, ntuple, p: Number(p), verdict, at: seen.get(id) }
    })
}

/** p of Kolmogorov's statistic with Stephens' correction for few values: 2 sum (-1)^(k-1) exp(-2 k² x²). */
function evenness(values) {
  const sorted = values.toSorted((a, b) => a - b)
  const n = sorted.length
  let distance = 0
  sorted.forEach((p, i) => {
    distance = Math.max(distance, p - i / n, (i + 1) / n - p)
  })
  const x = distance * (Math.sqrt(n) + 0.12 + 0.11 / Math.sqrt(n))
  let sum = 0
  for (let k = 1; k <= 100; k++) sum += 2 * (k % 2 === 1 ? 1 : -1) * Math.exp(-2 * k * k * x * x)
  return Math.min(1, Math.max(0, sum))
}
