import type { Argv } from "yargs"
import { type Experiment, type SensitivityAsked, samplingOf } from "../experiments/experiment.ts"
import type { Overrides, Problem } from "../experiments/read/read-experiment.ts"
import { count } from "../experiments/wording.ts"
import { colours, printJson } from "./print.ts"
import { type Arguments, type Command, EXIT, type Streams } from "./streams.ts"

/** Flags that change what a file says, shared by every command that reads one. */
export function overrideOptions(yargs: Argv): Argv {
  return yargs
    .option("set", { type: "string", array: true, nargs: 1, describe: "Change one setting: --set goalie.depth=1.4m" })
    .option("seed", { type: "string", requiresArg: true, describe: "Seed, any text" })
    .option("shots", { type: "string", requiresArg: true, describe: "Shots for each point, or the ceiling" })
    .option("half-width", {
      type: "string",
      requiresArg: true,
      describe: "Go on until the save rate is known this well: 0.5%",
    })
    .option("half-width-of", {
      type: "string",
      requiresArg: true,
      describe: "Whose half-width: save rate, or difference from the baseline",
    })
    .option("sampling", {
      type: "string",
      requiresArg: true,
      describe: "Where draws come from: 'scrambled Sobol points' (usual) or 'independent draws'",
    })
}

/** The flags of {@link overrideOptions} as the reader takes them. */
export function overridesOf(given: Arguments): Overrides {
  const { seed, shots, halfWidth, halfWidthOf, sampling } = given
  return {
    ...(given.set === undefined ? {} : { set: given.set as string[] }),
    ...(seed === undefined ? {} : { seed: last(seed) }),
    ...(shots === undefined ? {} : { shots: last(shots) }),
    ...(halfWidth === undefined ? {} : { halfWidth: last(halfWidth) }),
    ...(halfWidthOf === undefined ? {} : { halfWidthOf: last(halfWidthOf) }),
    ...(sampling === undefined ? {} : { sampling: last(sampling) }),
  }
}

/** A flag that was given twice means what it said last. */
function last(value: unknown): string {
  return String(Array.isArray(value) ? value.at(-1) : value)
}

/** Prints each problem on a line of its own, with their number below when there are several. */
export function printProblems(problems: readonly Problem[], streams: Streams): void {
  const { red, bold } = colours(streams)
  for (const problem of problems) streams.err(`${red(problem.text)}\n`)
  if (problems.length > 1) streams.err(`${bold(count(problems.length, "problem"))}\n`)
}

interface Checked {
  readonly file: string
  readonly experiment: Experiment | null
  readonly problems: readonly Problem[]
}

export const command: Command = {
  options: (yargs) =>
    overrideOptions(yargs.positional("file", { type: "string", array: true, describe: "Experiment files" })).option(
      "json",
      { type: "boolean", describe: "Print what was found as JSON" },
    ),
  run: async (given, streams) => {
    const { readExperiment } = await import("../experiments/read/read-experiment.ts")
    const { whyUnplayable } = await import("../experiments/run/unplayable.ts")
    const checked = (given.file as string[]).map((file): Checked => {
      const result = readExperiment(file, overridesOf(given))
      if ("problems" in result) return { file, experiment: null, problems: result.problems }
      const why = whyUnplayable(result.experiment)
      return why === null
        ? { file, experiment: result.experiment, problems: [] }
        : { file, experiment: null, problems: [together(file, why)] }
    })
    const { undrawnByFile, undrawnText } = await import("../experiments/report/undrawn.ts")
    const warningsOf = ({ experiment }: Checked): string[] =>
      experiment === null ? [] : undrawnByFile(experiment).map((undrawn) => undrawnText(undrawn, "will be"))
    if (given.json === true)
      printJson(await Promise.all(checked.map((item) => asJson(item, warningsOf(item)))), streams)
    else for (const item of checked) await printChecked(item, warningsOf(item), streams)
    return checked.every((item) => item.experiment !== null) ? EXIT.done : EXIT.wrong
  },
}

/** What no single line of the file is to blame for, in the words of a run. */
function together(file: string, text: string): Problem {
  const facts = { key: "the settings", rule: "playable together", current: "not", remedy: null }
  return { kind: "contradiction", file, line: null, column: null, ...facts, text }
}

async function printChecked(
  { file, experiment, problems }: Checked,
  warnings: readonly string[],
  streams: Streams,
): Promise<void> {
  if (experiment === null) {
    printProblems(problems, streams)
    return
  }
  const { shotsWords } = await import("./shots-words.ts")
  const { green, yellow, dim } = colours(streams)
  streams.out(
    `${green(`${file} reads clean`)}\n  ${experiment.question}\n  ${dim(planOf(experiment, shotsWords(experiment)))}\n`,
  )
  for (const warning of warnings) streams.err(`  ${yellow(warning)}\n`)
}

/** What a run of it would do, in one line; `shots` says how many it fires. */
function planOf(experiment: Experiment, shots: string): string {
  const { points, cases, sweep, halfWidth, judged, seed } = experiment
  const parts = [count(points.length, "point")]
  if (cases.length > 1) parts.push(`${cases.length} cases: ${cases.join(", ")}`)
  if (sweep.length > 0) parts.push(`swept: ${sweep.map((swept) => `${swept.key} (${swept.values.length})`).join(", ")}`)
  if (experiment.design !== undefined) parts.push(`${experiment.design.kind} design`)
  if (experiment.sensitivity !== undefined) parts.push(sensitivityPlan(experiment.sensitivity))
  const of = judged === "difference" ? " of every difference from the baseline" : ""
  const until = halfWidth === null ? "" : `, or until ± ${Number((halfWidth * 100).toPrecision(6))} %${of} is known`
  parts.push(`${shots}${until}`, `seed ${seed}`)
  return parts.join(" · ")
}

/** How many values a sensitivity finds, and all shots behind them. */
function sensitivityPlan({ ranges, sets, shots }: SensitivityAsked): string {
  const values = sets * (ranges.length + 2)
  const millions = ((values * shots) / 1e6).toFixed(1)
  return `sensitivity over ${ranges.length} quantities: ${count(values, "value")} of ${count(shots, "shot")}, ${millions} million`
}

async function asJson({ file, experiment, problems }: Checked, warnings: readonly string[]): Promise<object> {
  if (experiment === null) return { file, clean: false, problems }
  const { question, points, cases, sweep, shots, halfWidth, judged, seed, measures, charts } = experiment
  const swept = sweep.map(({ key, values }) => ({ key, values: values.length }))
  const { firedShots } = await import("../experiments/run/shot-plan.ts")
  const fired = firedShots(experiment)
  const plan = {
    question,
    points: points.length,
    cases,
    swept,
    shots,
    fired,
    halfWidth,
    judged,
    seed,
    measures,
    charts,
  }
  return { file, clean: true, problems, warnings, ...plan, sampling: samplingOf(experiment) }
}
