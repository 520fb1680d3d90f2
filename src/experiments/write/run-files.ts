import { join } from "node:path"
import type { Chart } from "../charts/chart.ts"
import { type ChartOptions, chartsOf } from "../charts/charts-of.ts"
import { type Draw, type DrawnChart, drawHere } from "../charts/draw.ts"
import { type ReportOptions, reportOf } from "../report/report.ts"
import type { RunResults } from "../results.ts"
import { sensitivityTable } from "../sensitivity/table.ts"
import { csvOf } from "./csv.ts"
import { type Disk, thisDisk } from "./disk.ts"
import { type RunFile, type WrittenFile, writeIntoPlace } from "./into-place.ts"
import { resultsJsonOf } from "./json.ts"
import { filesOfManifest, manifestOf, type RunFacts } from "./manifest.ts"
import { parquetOf } from "./parquet.ts"
import { tableOf } from "./table.ts"

export interface RunFilesOptions extends ChartOptions, ReportOptions {
  /** Files that were written while the run went on; they are only moved into place. */
  readonly written?: readonly WrittenFile[]
  /** How charts are drawn; in this thread unless given. */
  readonly draw?: Draw
}

/** Every file of a run but the manifest: the same results give the same bytes. */
export async function runFilesOf(results: RunResults, options: RunFilesOptions = {}): Promise<RunFile[]> {
  const drawing = drawnInTurn(chartsOf(results, options), options.draw ?? drawHere)
  const table = tableOf(results)
  const facts = { version: results.version, seed: results.experiment.seed, question: results.experiment.question }
  const files: RunFile[] = [
    textFile("results.csv", csvOf(table)),
    textFile("results.json", resultsJsonOf(results)),
    { path: "results.parquet", content: await parquetOf(table, facts) },
  ]
  if (results.sensitivity !== undefined)
    files.push(textFile("sensitivity.csv", csvOf(sensitivityTable(results.sensitivity))))
  const drawn = await drawing
  const report = textFile("report.html", reportOf(results, drawn, options))
  for (const one of drawn) files.push(...(await chartFiles(one)))
  return [...files, report]
}

/** One after the other; the pixels of one are made while the next is drawn, and tables while either is. */
function drawnInTurn(charts: readonly Chart[], draw: Draw): Promise<Drawn[]> {
  const all = async (): Promise<Drawn[]> => {
    const drawn: Drawn[] = []
    for (const chart of charts) drawn.push({ chart, ...(await draw(chart)) })
    return drawn
  }
  const promise = all()
  // a failure is met where the charts are waited for, though something else fails first
  promise.catch(() => {})
  return promise
}

interface Drawn extends DrawnChart {
  readonly chart: Chart
}

async function chartFiles({ chart, svg, png }: Drawn): Promise<RunFile[]> {
  const ending = chart.language === "vega" ? "vg.json" : "vl.json"
  return [
    textFile(`charts/${chart.name}.svg`, svg),
    { path: `charts/${chart.name}.png`, content: await png },
    textFile(`charts/${chart.name}.${ending}`, `${JSON.stringify(chart.spec, null, 1)}\n`),
  ]
}

/**
 * Writes everything a run found into its folder and returns the paths below it. Throws an OutputError that names path
 * and reason; the files of an earlier run are then as they were. Charts that the earlier run drew and this one did not,
 * and shots that only the earlier run kept, are removed.
 */
export async function writeRun(
  folder: string,
  results: RunResults,
  facts: RunFacts,
  options: RunFilesOptions = {},
  disk: Disk = thisDisk,
): Promise<string[]> {
  const files = await runFilesOf(results, options)
  const { written = [] } = options
  const paths = [...files, ...written].map(({ path }) => path).concat("manifest.json")
  const before = filesOfManifest((await disk.read(join(folder, "manifest.json"))) ?? "")
  await writeIntoPlace(
    folder,
    [...files, ...written, textFile("manifest.json", manifestOf(results, facts, paths))],
    disk,
  )
  await removeStale(folder, before, paths, disk)
  return paths
}

/**
 * Removes the charts and the kept shots that the earlier run's manifest lists and this run did not write, so that no
 * picture or table of other numbers is left beside these; anything else in the folder is a person's own.
 */
async function removeStale(
  folder: string,
  before: readonly string[],
  now: readonly string[],
  disk: Disk,
): Promise<void> {
  const stale = before.filter((path) => /^(charts\/[\w-]+(\.\w+)+|shots\.parquet)$/.test(path) && !now.includes(path))
  for (const path of stale) await disk.remove(join(folder, path))
}

function textFile(path: string, text: string): RunFile {
  return { path, content: new TextEncoder().encode(text) }
}
