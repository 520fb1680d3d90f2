import type { Experiment } from "../experiments/experiment.ts"
import type { Find } from "../experiments/replay/find.ts"
import type { Replay } from "../experiments/replay/replay.ts"
import type { Telling } from "../experiments/replay/sections.ts"
import type { ShotName } from "../experiments/replay/shot-name.ts"
import { overrideOptions, overridesOf, printProblems } from "./check.ts"
import { colours, printError, printJson, wrapped } from "./print.ts"
import { type Arguments, type Command, EXIT, type Streams } from "./streams.ts"

/** Columns of the text, and of the margin in which times and parts stand. */
const WIDTH = 100
const MARGIN = 18

export const command: Command = {
  options: (yargs) =>
    overrideOptions(yargs.positional("file", { type: "string", describe: "Experiment file" }))
      .option("shot", {
        type: "string",
        requiresArg: true,
        describe: "Shot of the run as replicate:index, both from 0; 0:0 unless given",
      })
      .option("point", {
        type: "string",
        requiresArg: true,
        describe: "Design point: baseline, or its number from 1 in the order of results.csv",
      })
      .option("find", {
        type: "string",
        requiresArg: true,
        describe: "First shot, from --shot on, that is a goal, save, close, late, opened, block, iron or miss",
      })
      .option("json", { type: "boolean", describe: "Print the story as JSON" }),
  run: replayShot,
}

/** A flag that does not fit the run. */
class WrongFlag extends Error {}

async function replayShot(given: Arguments, streams: Streams): Promise<number> {
  const { readExperiment } = await import("../experiments/read/read-experiment.ts")
  const read = readExperiment(String(given.file), overridesOf(given))
  if ("problems" in read) {
    printProblems(read.problems, streams)
    return EXIT.wrong
  }
  const { openReplay } = await import("../experiments/replay/replay.ts")
  const { tellShot } = await import("../experiments/replay/tell.ts")
  const { tellingOf } = await import("../experiments/replay/sections.ts")
  try {
    const { experiment } = read
    const point = pointOf(given.point, experiment)
    const from = await shotOf(given.shot, experiment)
    const find = await findOf(given.find)
    const replay = openReplay(experiment, point)
    const story = tellShot(replay, find === null ? from : await search(replay, find, from))
    if (given.json === true) printJson(story, streams)
    else printTelling(tellingOf(story), streams)
    return EXIT.done
  } catch (error) {
    printError(error instanceof Error ? error.message : String(error), streams)
    return error instanceof WrongFlag ? EXIT.wrong : EXIT.failed
  }
}

/** Index of the design point that is asked for. */
function pointOf(given: unknown, experiment: Experiment): number {
  const text = given === undefined ? "baseline" : last(given)
  if (text === "baseline") return experiment.baseline
  const count = experiment.points.length
  const number = /^\d{1,9}$/.test(text) ? Number(text) : 0
  if (number >= 1 && number <= count) return number - 1
  const rule = `Cannot replay at --point ${text} as the point must be baseline or a whole number from 1 to ${count}`
  throw new WrongFlag(`${rule}: current value is ${text}`)
}

async function shotOf(given: unknown, experiment: Experiment): Promise<ShotName> {
  const { isInPlan, planOf, planText, readShotName } = await import("../experiments/replay/shot-name.ts")
  const text = given === undefined ? "0:0" : last(given)
  const name = readShotName(text)
  const plan = planOf(experiment)
  if (name !== null && isInPlan(name, plan)) return name
  throw new WrongFlag(`Cannot replay --shot ${text} as the shot must be ${planText(plan)}: current value is ${text}`)
}

async function findOf(given: unknown): Promise<Find | null> {
  if (given === undefined) return null
  const { FIND_WORDS } = await import("../experiments/replay/find.ts")
  const { joinOr } = await import("../experiments/wording.ts")
  const text = last(given)
  const find = FIND_WORDS.find((word) => word === text)
  if (find !== undefined) return find
  throw new WrongFlag(
    `Cannot find --find ${text} as what is looked for must be ${joinOr(FIND_WORDS)}: current value is ${text}`,
  )
}

async function search(replay: Replay, find: Find, from: ShotName): Promise<ShotName> {
  const { FINDS, findShot } = await import("../experiments/replay/find.ts")
  const { name, scanned } = findShot(replay, find, from)
  if (name !== null) return name
  const rule = `Cannot find --find ${find} as one of the ${scanned} shots looked at must be one that ${FINDS[find]}`
  throw new WrongFlag(`${rule}: current value is none of them`)
}

/** A flag that was given twice means what it said last. */
function last(value: unknown): string {
  return String(Array.isArray(value) ? value.at(-1) : value).trim()
}

function printTelling({ title, headline, sections }: Telling, streams: Streams): void {
  const { bold, dim, cyan } = colours(streams)
  streams.out(`${dim(wrapped(title, WIDTH, ""))}\n${bold(wrapped(headline, WIDTH, ""))}\n`)
  for (const section of sections) {
    streams.out(`\n${cyan(section.title)}\n`)
    for (const { label, text } of section.rows) {
      const lines = wrapped(text, WIDTH, " ".repeat(MARGIN + 2))
      streams.out(`${dim(label.padStart(MARGIN))}  ${lines.trimStart()}\n`)
    }
  }
}
