import { fileURLToPath } from "node:url"
import { BOX_ROUNDING, CLEARANCE, PATH_ROW, START_C, solveRow } from "../dist/sim/rounded-box.js"
import { interleaved, timed } from "./clock.mjs"
import { realPairs } from "./contact/pairs.mjs"
import { programs } from "./contact/programs.mjs"
import { contactSection } from "./contact/table.mjs"

/** How often the pairs are gone over in one measurement. */
const PASSES = { typescript: 20, scalar: 20, four: 20, numpy: 2, casts: 1 }

/**
 * Nanoseconds for one clearance of a straight path from one rounded box of a real body, each searched for anew, by all
 * that can be had here, and how far their answers are from TypeScript's.
 */
export function contactStage(rounds) {
  const { records, parts } = realPairs()
  const expected = records.map((record) => record[CLEARANCE])
  const others = programs(records)
  try {
    const names = ["scalar", "four", "numpy", "casts"].filter((name) => others[name] !== null)
    const answers = {}
    const typescript = asTheEngine(records, parts)
    const jobs = names.map((name) => () => {
      const found = others[name](PASSES[name])
      answers[name] = found.answers
      return found.seconds
    })
    const times = interleaved([typescript, ...jobs], rounds)
    const rows = ["typescript", ...names].map((name, j) => {
      const agreement =
        name === "typescript" ? {} : (name === "casts" ? hitsAgree : differences)(expected, answers[name])
      return [name, { ns: (1e9 * times[j]) / (PASSES[name] * records.length), ...agreement }]
    })
    return {
      pairs: records.length,
      touching: share(expected, (clearance) => clearance <= 0),
      overlapping: share(records, (record) => record[CLEARANCE] <= -record[BOX_ROUNDING]),
      ...Object.fromEntries(rows),
    }
  } finally {
    others.remove()
  }
}

/** What TypeScript takes, with a record for each part and a row for each path, as the engine has them. */
function asTheEngine(records, parts) {
  const boxes = records.slice(0, parts).map((record) => record.slice())
  const rows = records.map((record) => record.slice(0, PATH_ROW))
  return () =>
    timed(() => {
      for (let pass = 0; pass < PASSES.typescript; pass++)
        for (let i = 0; i < rows.length; i++) {
          const box = boxes[i % parts]
          box[START_C] = Number.NaN
          solveRow(box, rows[i])
        }
    })
}

function share(values, holds) {
  return values.filter(holds).length / values.length
}

/** Largest and 99th percentile of the differences, m. */
function differences(expected, answers) {
  const apart = expected.map((clearance, i) => Math.abs(clearance - answers[i])).sort((a, b) => a - b)
  return { largest: apart.at(-1), most: apart[Math.floor(0.99 * (apart.length - 1))] }
}

/** Shares of the paths that touch, and of those that pass, on which a cast says the same; how clear they part, m. */
function hitsAgree(expected, answers) {
  const touches = expected.map((clearance) => (clearance <= 0 ? 1 : 0))
  const same = (kind) =>
    share(
      answers.filter((_, i) => touches[i] === kind),
      (hit) => hit === kind,
    )
  const apart = expected.filter((_, i) => touches[i] !== answers[i]).map(Math.abs)
  return { hits: same(1), misses: same(0), parts: Math.max(0, ...apart) }
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  process.stdout.write(`${contactSection(contactStage(Number(process.argv[2] ?? 9)))}\n`)
