import { writeFileSync } from "node:fs"
import { basename } from "node:path"
import type { Argv } from "yargs"
import type { MeasuredGoalie } from "../experiments/measure/measured-goalie.ts"
import type { ReadingFlags } from "../experiments/measure/readings.ts"
import { problemAt } from "../experiments/read/problem.ts"
import { count, trimNumber } from "../experiments/wording.ts"
import { printProblems } from "./check.ts"
import { writeFacts } from "./new.ts"
import { colours, printError, printJson, wrapped } from "./print.ts"
import { type Arguments, type Command, EXIT, type Streams } from "./streams.ts"

/** Flags that stand for keys of the sheet, with what each is. */
const READING_FLAGS: Readonly<Record<string, string>> = {
  name: "What the report calls the goalie",
  stature: "Standing height without skates: 1.83m",
  mass: "Body mass: 82kg",
  catches: "Hand with the catching glove: left or right",
  gear: "Rule code of the gear",
  "post-to-post": "Reading, or several: 0.85s, '26 frames'",
  "post-to-post-distance": "The goal's opening unless given",
  shuffle: "Reading of a shuffle past a mark",
  "shuffle-distance": "How far the mark is",
  slide: "Reading of a butterfly slide past a mark",
  "slide-distance": "How far the mark is",
  forward: "Reading of a push forward past a mark",
  "forward-distance": "How far the mark is",
  backward: "Reading of a backward glide past a mark",
  "backward-distance": "How far the mark is",
  drop: "Reading of the drop to the knees",
  "frame-rate": "Frames a second of the video",
  "watch-error": "Error of the hand on the stop-watch, 0.1s unless given",
}

export const command: Command = {
  options: (yargs) => {
    let own: Argv = yargs
      .positional("readings", { type: "string", describe: "Sheet of readings; with --sheet, the file to write" })
      .option("sheet", { type: "boolean", describe: "Write an empty sheet of readings to fill in" })
      .option("out", { type: "string", requiresArg: true, describe: "Goalie file to write; never replaces one" })
      .option("json", { type: "boolean", describe: "Print what was found as JSON" })
    for (const [flag, describe] of Object.entries(READING_FLAGS))
      own = own.option(flag, { type: "string", requiresArg: true, describe })
    return own
  },
  run: async (given, streams) => {
    const out = given.out === undefined ? null : lastOf(given.out)
    const file = given.readings === undefined ? null : String(given.readings)
    if (given.sheet === true) return writeSheet(file ?? out ?? "readings.yaml", given.json === true, streams)

    const { readReadings } = await import("../experiments/measure/readings.ts")
    const { measuredGoalie } = await import("../experiments/measure/measured-goalie.ts")
    const read = readReadings(file, flagsOf(given))
    if ("problems" in read) {
      if (given.json === true) printJson({ written: null, problems: read.problems }, streams)
      else printProblems(read.problems, streams)
      return EXIT.wrong
    }
    const stem = basename(out ?? file ?? "goalie").replace(/\.ya?ml$/i, "")
    const goalie = measuredGoalie(read.readings, stem)
    if (out !== null) {
      const { goalieText } = await import("../experiments/measure/goalie-text.ts")
      const failed = writeNew(out, goalieText(goalie), given.json === true, streams)
      if (failed !== null) return failed
    }
    if (given.json === true) printJson(await asJson(goalie, out), streams)
    else await printGoalie(goalie, out, streams)
    return EXIT.done
  },
}

/** The flags that were given, each under the key of the sheet it stands for. */
function flagsOf(given: Arguments): ReadingFlags {
  return Object.keys(READING_FLAGS).flatMap((flag) => {
    const value = given[flag]
    const values = value === undefined ? [] : Array.isArray(value) ? value : [value]
    return values.map((text) => ({ flag, key: flag.replaceAll("-", "_"), text: String(text) }))
  })
}

async function writeSheet(path: string, json: boolean, streams: Streams): Promise<number> {
  const { sheetText } = await import("../experiments/measure/sheet.ts")
  const failed = writeNew(path, sheetText(), json, streams)
  if (failed !== null) return failed
  if (json) printJson({ written: path }, streams)
  else
    streams.out(`${colours(streams).green(`Wrote ${path}`)}\nFill it in at the rink, then goalmouth measure ${path}\n`)
  return EXIT.done
}

/** Writes a file that is not there yet; otherwise says why not and returns the exit code. */
function writeNew(path: string, text: string, json: boolean, streams: Streams): number | null {
  try {
    writeFileSync(path, text, { flag: "wx" })
    return null
  } catch (error) {
    const problem = problemAt({ file: path, line: null, column: null }, writeFacts(path, error), "write")
    if (json) printJson({ written: null, problems: [problem] }, streams)
    else printError(problem.text, streams)
    return EXIT.wrong
  }
}

async function printGoalie(goalie: MeasuredGoalie, out: string | null, streams: Streams): Promise<void> {
  const { spreadText, valueText } = await import("../experiments/measure/goalie-text.ts")
  const { MEASURE_CAUTIONS } = await import("../experiments/measure/cautions.ts")
  const { bold, dim, green } = colours(streams)
  streams.out(`${bold(goalie.name)}\n`)
  for (const { what, mean, standardError, n } of goalie.timed) {
    const error = trimNumber(1000 * standardError, 2)
    streams.out(`  ${what}: ${trimNumber(mean, 3)} s, standard error ${error} ms (${count(n, "reading")})\n`)
  }
  const width = Math.max(0, ...goalie.values.map(({ key }) => key.length))
  for (const row of goalie.values)
    streams.out(`  ${row.key.padEnd(width)}  ${bold(valueText(row.key, row.value))}  ${dim(spreadText(row))}\n`)
  for (const note of [...goalie.notes, MEASURE_CAUTIONS]) streams.out(`${wrapped(note, 100, "  ")}\n`)
  if (out !== null)
    streams.out(`${green(`Wrote ${out}`)}\nName it in an experiment by its path from there: goalie: { file: ${out} }\n`)
  else streams.out("Add --out goalies/NAME.yaml to write the goalie file\n")
}

/** Everything that was found; values, spreads and errors in SI. */
async function asJson(goalie: MeasuredGoalie, written: string | null): Promise<object> {
  const { MEASURE_CAUTIONS } = await import("../experiments/measure/cautions.ts")
  const { name, about, timed, values, notes } = goalie
  const given = goalie.given.map((setting) => ({
    key: setting.key,
    value: setting.kind === "quantity" ? setting.measured.value : setting.value,
  }))
  return { written, name, about, given, timed, values, notes, cautions: MEASURE_CAUTIONS, problems: [] }
}

/** A flag that was given twice means what it said last. */
function lastOf(value: unknown): string {
  return String(Array.isArray(value) ? value.at(-1) : value)
}
