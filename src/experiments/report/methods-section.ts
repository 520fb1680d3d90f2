import { isLostInNoise } from "../lost-in-noise.ts"
import { MEASURES } from "../measures.ts"
import type { AssumptionRange, RunResults } from "../results.ts"
import { type Html, html, section } from "./html.ts"
import { intervalMethods } from "./interval-methods.ts"
import { baselineText, keyName, percent, plain, shotsText, valueText } from "./words.ts"

/** How the run was made, in the order aims, data, estimands, methods, performance, and what a reviewer has to know. */
export function methodsSection(results: RunResults): Html {
  const items: readonly (readonly [string, string])[] = [
    ["Aim", aim(results)],
    ["Data-generating mechanism", DATA],
    ["Estimands", estimands(results)],
    ["Methods", methods(results)],
    ["Performance", performance(results)],
    ["Design", design(results)],
    ["Initialisation and run length", runLength(results)],
    ["Random numbers", random(results)],
    ["Domain", DOMAIN],
    ["Software and code", `goalmouth ${results.version}, open source; hardware and duration stand in manifest.json`],
  ]
  const list = items.map(([name, text]) => html`<dt>${name}</dt><dd>${text}.</dd>\n`)
  const order =
    "Aims, data, estimands, methods and performance measures follow ADEMP (Morris, White and Crowther 2019); what else is stated follows STRESS (Monks et al. 2019)."
  return section("Methods", [html`<p class="quiet">${order}</p>\n<dl>\n${list}</dl>\n`])
}

const DATA =
  "Each shot is made for a stratum (where it leaves from, where it is aimed, aimed or hurried): the puck flies under gravity and drag, the goalie stands where the design point says, or in a play that builds up goes there as fast as the table of parameters allows, with an error from shot to shot, reacts after a random time and moves limbs no faster than their limits; distributions and ranges stand in the table of parameters"
const DOMAIN =
  "The answer holds for the goalie, play and shooter described; it was not fitted to this goalie, and no published study has measured how depth changes the save rate"

function aim({ experiment }: RunResults): string {
  const why = experiment.why === "" ? "" : `; ${experiment.why.replace(/\.$/, "")}`
  return `${experiment.question.replace(/[.?]$/, "")}${why}`
}

function estimands({ points }: RunResults): string {
  const found = MEASURES.filter(({ key }) => points.some((point) => key in point.estimates))
  return found
    .map(({ title, definition }) => `${title}: ${definition.charAt(0).toLowerCase()}${definition.slice(1)}`)
    .join("; ")
}

function methods(results: RunResults): string {
  const base = baselineText(results.experiment)
  return `Every design point meets the same shots, so a difference from ${base} is paired; intervals are ${intervalMethods(results.points)}; best and plateau by the bootstrap over replicates${setsOf(results)}`
}

function setsOf(results: RunResults): string {
  const ranges = results.points.flatMap(({ assumptions }) => Object.values(assumptions))
  if (ranges.length === 0) return "; no assumption range was asked for"
  const most = (of: (range: AssumptionRange) => number): number => Math.max(0, ...ranges.map(of))
  const [sets, shots] = [most((range) => range.sets), most((range) => range.shots ?? 0)]
  const each = shots === 0 ? "the same shots" : `the same ${shots.toLocaleString("en-US")} shots a point`
  const lost = ranges.some(isLostInNoise) ? "; where more than half of its spread is of sampling it is not told" : ""
  return `; the assumption range is 5 % to 95 % over ${sets} parameter sets drawn within their plausible ranges, each on ${each}${lost}`
}

function performance(results: RunResults): string {
  const errors = results.points.flatMap(({ estimates }) =>
    !Number.isFinite(estimates.save_rate?.standardError) ? [] : [estimates.save_rate!.standardError],
  )
  const largest = plain(Math.max(0, ...errors) * 100, 3)
  return `The largest Monte Carlo standard error of a save rate is ${largest} points; every figure carries its ${percent(results.confidence, 0)} interval`
}

function design({ experiment }: RunResults): string {
  const swept = experiment.sweep.map((one) => {
    const values = one.values
    const list =
      values.length > 4
        ? `${valueText(one, values[0]!)} to ${valueText(one, values.at(-1)!)} in ${values.length} values`
        : values.map((value) => valueText(one, value)).join(", ")
    return `${keyName(one.key)} (${list})`
  })
  const named = experiment.cases.filter((name) => name !== "")
  const cases = named.length > 0 ? `; cases: ${named.join(", ")}` : ""
  return `${experiment.points.length} design points; swept: ${swept.length > 0 ? swept.join(", ") : "nothing"}${cases}`
}

function runLength(results: RunResults): string {
  const alone = results.spread === undefined ? "shots are independent" : "no shot hangs on the one before"
  return `No warm-up is needed as ${alone}; ${shotsText(results.points)} shots at each point, in ${results.replicates} replicates; sampling was ended by: ${results.stoppedBy}${judgedText(results)}`
}

/** How a wanted half-width was judged, and at how many points it was reached. */
function judgedText({ experiment, points }: RunResults): string {
  const { halfWidth, judged } = experiment
  if (halfWidth === null) return ""
  const whole = points.filter(({ stoppedBy }) => stoppedBy !== undefined)
  const reached = whole.filter(({ stoppedBy }) => stoppedBy === "half-width").length
  const of = judged === "difference" ? "difference from the baseline" : "save rate"
  const alone =
    judged === "difference"
      ? ""
      : "; a point that has it takes no more shots, and points are compared by the shots that all of them have met"
  return `; wanted: ± ${plain(halfWidth * 100, 2)} points of every ${of}, reached at ${reached} of ${whole.length} points; judged only at fixed counts, each twice the one before${alone}, and every interval of a point and of a curve is 3 % wider than for a count fixed beforehand, which keeps its coverage under this rule`
}

function random(results: RunResults): string {
  return `Seed "${results.experiment.seed}"; ${sampling(results)}Philox 4x32-10, counter by shot and slot, with streams for play, shooter, puck and goalie; the same seed and version give the same results on any number of workers`
}

/** Where the shots were points of a scrambled sequence: which, how scrambled, and what falls back to its stream. */
function sampling({ spread, replicates }: RunResults): string {
  if (spread === undefined) return "independent draws; "
  const beyond =
    spread.beyond === 0
      ? ""
      : `, and the ${spread.beyond} draws of a shot beyond these dimensions (later legs of a play, traffic, rebounds) are independent`
  return `each shot is a point of the Sobol' sequence in ${spread.dimensions} dimensions (direction numbers of Joe and Kuo 2008), scrambled anew in each of the ${replicates} replicates by a random matrix and shift with the variance of nested scrambling (Owen 2003)${beyond}; keys and other draws: `
}
