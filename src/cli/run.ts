import type { Experiment } from "../experiments/experiment.ts"
import type { RunResults } from "../experiments/results.ts"
import type { RunOptions } from "../experiments/run/run-experiment.ts"
import { overrideOptions, overridesOf, printProblems } from "./check.ts"
import { colours, printError } from "./print.ts"
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

  // the place to write is tried before the first batch
  const folder = given.out === undefined ? `out/${experiment.name}` : String(given.out)
  const { checkOutputFolder } = await import("../experiments/write/into-place.ts")
  try {
    await checkOutputFolder(folder)
  } catch (error) {
    printError(error instanceof Error ? error.message : String(error), streams)
    return EXIT.wrong
  }
  return fireAndWrite(experiment, { file, folder, workers, started, given }, streams)
}

interface Order {
  readonly file: string
  readonly folder: string
  readonly workers: number
  readonly started: number
  readonly given: Arguments
}

async function fireAndWrite(experiment: Experiment, order: Order, streams: Streams): Promise<number> {
  const { runExperiment } = await import("../experiments/run/run-experiment.ts")
  const quiet = order.given.quiet === true || order.given.json === true
  const progress = quiet ? null : await progressBar()
  const stop = watchInterrupt(streams)
  try {
    const options: RunOptions = {
      version: version(),
      workers: order.workers,
      assumptions: order.given.assumptions !== false,
      onProgress: (share, stage) => progress?.show(share, stage),
      interrupted: stop.asked,
    }
    const results = await runExperiment(experiment, options)
    progress?.end()
    await writeResults(results, order)
    if (order.given.json === true) await printResults(results, streams)
    else if (order.given.quiet !== true) await printAnswer(results, order, streams)
    return results.stoppedBy === "interrupted" ? EXIT.interrupted : EXIT.done
  } catch (error) {
    progress?.end()
    printError(error instanceof Error ? error.message : String(error), streams)
    return EXIT.failed
  } finally {
    stop.end()
  }
}

async function writeResults(results: RunResults, order: Order): Promise<void> {
  const { writeRun } = await import("../experiments/write/run-files.ts")
  const { readFileSync } = await import("node:fs")
  const { createHash } = await import("node:crypto")
  const { cpus } = await import("node:os")
  const cores = cpus()
  await writeRun(order.folder, results, {
    fileHash: createHash("sha256").update(readFileSync(order.file)).digest("hex"),
    durationSeconds: Math.round(performance.now() - order.started) / 1000,
    hardware: `${cores[0]?.model.trim() ?? "unknown processor"}, ${cores.length} cores`,
    workers: order.workers,
    stoppedBy: results.stoppedBy,
  })
}

async function printResults(results: RunResults, streams: Streams): Promise<void> {
  const { resultsJsonOf } = await import("../experiments/write/json.ts")
  streams.out(`${resultsJsonOf(results).trimEnd()}\n`)
}

/** The answer in a sentence, the warnings, and where to look. */
async function printAnswer(results: RunResults, order: Order, streams: Streams): Promise<void> {
  const { answerOf } = await import("../experiments/report/answer.ts")
  const { bold, yellow, dim } = colours(streams)
  streams.out(`${bold(results.experiment.question)}\n${answerOf(results).headline}\n`)
  for (const warning of results.warnings) streams.err(`${yellow(warning.text)}\n`)
  const seconds = ((performance.now() - order.started) / 1000).toFixed(1)
  streams.out(dim(`${results.shots} shots a point, seed ${results.experiment.seed}, ${seconds} s\n`))
  streams.out(`Charts: ${order.folder}/charts\nReport: ${order.folder}/report.html\n`)
}

/** A bar on standard error, only on a terminal. */
async function progressBar(): Promise<{ show: (share: number, stage: string) => void; end: () => void } | null> {
  if (!process.stderr.isTTY) return null
  const { default: progress } = await import("cli-progress")
  const bar = new progress.SingleBar({
    format: "{stage} {bar} {percentage} % {eta_formatted} left",
    clearOnComplete: true,
  })
  let stage = ""
  return {
    show: (share, name) => {
      if (name !== stage) {
        if (stage !== "") bar.stop()
        stage = name
        bar.start(1000, 0, { stage })
      }
      bar.update(Math.round(share * 1000), { stage })
    },
    end: () => bar.stop(),
  }
}

/** The first Ctrl-C ends the run after the shots in hand, the second ends the process. */
function watchInterrupt(streams: Streams): { asked: () => boolean; end: () => void } {
  let asked = false
  const listen = () => {
    if (asked) process.exit(EXIT.interrupted)
    asked = true
    streams.err("Stopping after the shots in hand; what is done will be written\n")
  }
  process.on("SIGINT", listen)
  return { asked: () => asked, end: () => process.off("SIGINT", listen) }
}

/** Threads asked for, or one for each core; null when it is no such number. */
async function workersOf(given: unknown): Promise<number | null> {
  if (given === undefined) return (await import("node:os")).availableParallelism()
  const workers = Number(given)
  return Number.isInteger(workers) && workers >= 1 && workers <= 256 ? workers : null
}
