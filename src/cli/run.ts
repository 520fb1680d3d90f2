import { createHash } from "node:crypto"
import { readFileSync } from "node:fs"
import type { Chart } from "../experiments/charts/chart.ts"
import type { chartsWithoutShots } from "../experiments/charts/charts-of.ts"
import type { DrawnChart } from "../experiments/charts/draw.ts"
import type { Experiment } from "../experiments/experiment.ts"
import type { RunResults } from "../experiments/results.ts"
import type { Checkpoint } from "../experiments/run/checkpoint.ts"
import type { RunOptions } from "../experiments/run/run-experiment.ts"
import type { RunFilesOptions } from "../experiments/write/run-files.ts"
import { overrideOptions, overridesOf, printProblems } from "./check.ts"
import { watchInterrupt } from "./interrupt.ts"
import { colours, printError } from "./print.ts"
import { openProgress } from "./progress.ts"
import { type Arguments, type Command, EXIT, type Streams } from "./streams.ts"
import { version } from "./version.ts"

export const command: Command = {
  options: (yargs) =>
    overrideOptions(yargs.positional("file", { type: "string", describe: "Experiment file" }))
      .option("out", { type: "string", requiresArg: true, describe: "Folder to write to; out/<name> unless given" })
      .option("workers", { type: "string", requiresArg: true, describe: "Threads; one for each core unless given" })
      .option("assumptions", {
        type: "boolean",
        default: true,
        describe: "Draw the assumption range; --no-assumptions for a quick look",
      })
      .option("keep-shots", {
        type: "boolean",
        describe: "Write every shot of every point as well, into shots.parquet (some 45 bytes each)",
      })
      .option("fresh", {
        type: "boolean",
        describe: "Start over where an unfinished run of other settings lies in the folder",
      })
      .option("json", { type: "boolean", describe: "Print the results as JSON" })
      .option("quiet", { type: "boolean", describe: "Print nothing but errors" }),
  run: runFile,
}

async function runFile(given: Arguments, streams: Streams): Promise<number> {
  const started = performance.now()
  const { readExperiment } = await import("../experiments/read/read-experiment.ts")
  const file = String(given.file)
  const read = readExperiment(file, overridesOf(given))
  const workers = await workersOf(given.workers)
  if (workers === null) {
    const rule = "Cannot read --workers as workers must be a whole number from 1 to 256"
    printError(`${rule}: current value is ${String(given.workers)}`, streams)
  }
  if ("problems" in read) printProblems(read.problems, streams)
  if ("problems" in read || workers === null) return EXIT.wrong
  const { experiment } = read

  // the place to write is tried before the first batch, and what lies there is looked at
  const folder = given.out === undefined ? `out/${experiment.name}` : String(given.out)
  const { checkOutputFolder } = await import("../experiments/write/into-place.ts")
  try {
    await checkOutputFolder(folder, undefined, given.keepShots === true ? ["shots.parquet"] : [])
    const fileHash = createHash("sha256").update(readFileSync(file)).digest("hex")
    const checkpoint = await checkpointOf(experiment, folder, given, streams)
    return checkpoint === null
      ? EXIT.wrong
      : await fireAndWrite(experiment, { fileHash, folder, workers, started, given, checkpoint }, streams)
  } catch (error) {
    printError(error instanceof Error ? error.message : String(error), streams)
    return EXIT.wrong
  }
}

/** Opens what an unfinished run left in the folder; null, with a message, where this run cannot carry it on. */
async function checkpointOf(
  experiment: Experiment,
  folder: string,
  given: Arguments,
  streams: Streams,
): Promise<Checkpoint | null> {
  const { openCheckpoint } = await import("../experiments/run/checkpoint.ts")
  const { identityOf } = await import("../experiments/run/checkpoint-identity.ts")
  const opened = await openCheckpoint(folder, identityOf(experiment, version()), {
    fresh: given.fresh === true,
    warn: (text) => streams.err(`${colours(streams).yellow(text)}\n`),
  })
  if ("checkpoint" in opened) {
    if (opened.checkpoint.carriesOn && !isQuiet(given)) streams.err(`Carrying on the unfinished run in ${folder}\n`)
    return opened.checkpoint
  }
  const rule = "it must be the run that was started there"
  const remedy = "give --fresh to start over, or another --out"
  const message = `Cannot carry on the unfinished run in ${folder} as ${rule}: current values differ in`
  printError(`${message} ${opened.differences.join(", ")} (${remedy})`, streams)
  return null
}

/** How many shots a run fires, and what keeping them takes. */
async function planWords(experiment: Experiment, given: Arguments): Promise<string> {
  const { roomWords, shotsWords } = await import("./shots-words.ts")
  const room = given.keepShots === true ? `; every one kept takes ${roomWords(experiment)}` : ""
  return `Firing ${shotsWords(experiment)}${room}\n`
}

function isQuiet(given: Arguments): boolean {
  return given.quiet === true || given.json === true
}

interface Order {
  readonly fileHash: string
  readonly folder: string
  readonly workers: number
  readonly started: number
  readonly given: Arguments
  readonly checkpoint: Checkpoint
}

async function fireAndWrite(experiment: Experiment, order: Order, streams: Streams): Promise<number> {
  const { openDrawing } = await import("../experiments/charts/drawing.ts")
  // the thread that draws loads what it needs while this one does
  const drawing = openDrawing()
  const { runExperiment } = await import("../experiments/run/run-experiment.ts")
  const { KEPT_FILE, keptFile } = await import("../experiments/keep/kept-file.ts")
  const kept = order.given.keepShots === true ? keptFile(order.folder) : null
  const early = new Map<string, Promise<DrawnChart>>()
  let describing: Promise<Chart[]> = Promise.resolve([])
  const progress = isQuiet(order.given) ? null : await openProgress()
  const stop = watchInterrupt(streams, () => progress?.end(), kept !== null)
  const plan = isQuiet(order.given) ? "" : await planWords(experiment, order.given)
  let begun = false
  try {
    const options: RunOptions = {
      version: version(),
      workers: order.workers,
      assumptions: order.given.assumptions !== false,
      // drawn while the shots are fired
      onPictures: (pictures) => {
        describing = describe({ experiment, ...pictures })
        const draw = (charts: readonly Chart[]) => {
          if (drawing !== null) for (const chart of charts) early.set(chart.name, drawing.draw(chart))
        }
        // a failure is met where the charts are waited for
        describing.then(draw, () => {})
      },
      onProgress: (share, stage, shots) => {
        // what cannot be played is found before
        if (!begun) streams.err(plan)
        begun = true
        progress?.show(share, stage, shots)
      },
      interrupted: stop.asked,
      checkpoint: order.checkpoint,
      ...(kept === null ? {} : { keepShots: kept }),
    }
    const results = await runExperiment(experiment, options)
    progress?.end()
    const interrupted = results.stoppedBy === "interrupted"
    const written = kept === null || interrupted ? [] : [{ path: KEPT_FILE, from: kept.path }]
    const draw = drawing === null ? {} : { draw: (chart: Chart) => early.get(chart.name) ?? drawing.draw(chart) }
    await writeResults(results, order, { written, described: await describing, ...draw })
    if (!interrupted) await order.checkpoint.remove()
    if (order.given.json === true) await printResults(results, streams)
    else if (order.given.quiet !== true) await printAnswer(results, order, streams)
    return interrupted ? EXIT.interrupted : EXIT.done
  } catch (error) {
    progress?.end()
    printError(error instanceof Error ? error.message : String(error), streams)
    if (error instanceof Error && error.name === "OutputError" && !isQuiet(order.given))
      streams.err("What was fired is kept: once there is room, the same command carries on\n")
    // what cannot be played is found before the first shot, and is the file's matter
    return begun || !(error instanceof RangeError) ? EXIT.failed : EXIT.wrong
  } finally {
    stop.end()
    await drawing?.close()
  }
}

/** The charts that hang on no shot; what describes them is loaded here, when the threads have begun to fire. */
async function describe(found: Parameters<typeof chartsWithoutShots>[0]): Promise<Chart[]> {
  const charts = await import("../experiments/charts/charts-of.ts")
  return charts.chartsWithoutShots(found)
}

async function writeResults(results: RunResults, order: Order, options: RunFilesOptions): Promise<void> {
  const { writeRun } = await import("../experiments/write/run-files.ts")
  const { cpus } = await import("node:os")
  const cores = cpus()
  const facts = {
    fileHash: order.fileHash,
    durationSeconds: Math.round(performance.now() - order.started) / 1000,
    hardware: `${cores[0]?.model.trim() ?? "unknown processor"}, ${cores.length} cores`,
    workers: order.workers,
    stoppedBy: results.stoppedBy,
  }
  await writeRun(order.folder, results, facts, options)
}

async function printResults(results: RunResults, streams: Streams): Promise<void> {
  const { resultsJsonOf } = await import("../experiments/write/json.ts")
  streams.out(`${resultsJsonOf(results).trimEnd()}\n`)
}

/** The answer in a sentence, the warnings, and where to look. */
async function printAnswer(results: RunResults, order: Order, streams: Streams): Promise<void> {
  const { answerOf } = await import("../experiments/report/answer.ts")
  const { shotsText } = await import("../experiments/report/words.ts")
  const { bold, yellow, dim } = colours(streams)
  const { headline, notes } = answerOf(results)
  streams.out(`${bold(results.experiment.question)}\n${headline}\n`)
  // what to practise first is a list of its own, asked for by the file
  if (results.sensitivity !== undefined) for (const note of notes) streams.out(`${note}\n`)
  for (const warning of results.warnings) streams.err(`${yellow(warning.text)}\n`)
  const seconds = ((performance.now() - order.started) / 1000).toFixed(1)
  streams.out(dim(`${shotsText(results.points)} shots a point, seed ${results.experiment.seed}, ${seconds} s\n`))
  streams.out(`Charts: ${order.folder}/charts\nReport: ${order.folder}/report.html\n`)
  streams.out(
    "Before it is tried on the ice: local rules and licensed practice come first; the report has the cautions\n",
  )
}

/** Threads asked for, or one for each core; null when it is no such number. */
async function workersOf(given: unknown): Promise<number | null> {
  if (given === undefined) return (await import("node:os")).availableParallelism()
  const workers = Number(given)
  return Number.isInteger(workers) && workers >= 1 && workers <= 256 ? workers : null
}
