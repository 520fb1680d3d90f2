import { basename, dirname } from "node:path"
import { isMap } from "yaml"
import { branchesOf } from "../../models/plays/branches.ts"
import { defaultSettings, type Settings } from "../../models/settings.ts"
import { USUAL_SAMPLER } from "../../sim/sampler.ts"
import { needOfFile } from "../chart-needs.ts"
import type { Experiment } from "../experiment.ts"
import { FILE_FIELDS, keysOf } from "../grammar.ts"
import { readBaseline } from "./baseline.ts"
import { type Case, readCases } from "./cases.ts"
import { type DesignRead, readDesign, reportCrossed } from "./design.ts"
import { reportTooEarly } from "./events.ts"
import { readTextFile } from "./file.ts"
import { flatten } from "./flatten.ts"
import { readInteractions } from "./interaction.ts"
import { goalieNameOf, keysSet, LAYER_KEYS, type Layer, readLayer, resolveLayers, SPOT_KEYS } from "./layer.ts"
import { readCharts, readMeasures, readSampling, USUAL_CHARTS } from "./names.ts"
import { reportOnGoalLine } from "./on-the-goal-line.ts"
import { type FlagValues, type Overrides, readOverrides } from "./overrides.ts"
import { type Axis, designPoints, pointsAreFew, sweptOf } from "./points.ts"
import type { Problem } from "./problem.ts"
import { readSensitivity, settleSensitivity } from "./sensitivity.ts"
import { fail, readText } from "./setting.ts"
import { type Found, isNothing, isText, parseSource, type Source, show } from "./source.ts"
import { readStopping, reportNothingCompared } from "./stopping.ts"
import { readSweep, readTogether } from "./sweep.ts"
import { readWorstOf } from "./worst-of.ts"

export type { Overrides } from "./overrides.ts"
export type { Problem, ProblemKind } from "./problem.ts"

/** An experiment ready to run, or everything that is wrong with its file and flags. */
export type ReadResult = { readonly experiment: Experiment } | { readonly problems: readonly Problem[] }

/** Seed of a file that names none. */
export const USUAL_SEED = "goalmouth"

const KNOWN: readonly string[] = [...keysOf(FILE_FIELDS), ...LAYER_KEYS]

/**
 * Reads an experiment file and the flags that change it. Never throws for what a person wrote: every problem of the
 * file, of the files it names and of the flags comes back at once.
 */
export function readExperiment(path: string, overrides: Overrides = {}): ReadResult {
  const problems: Problem[] = []
  const place = { file: path, line: null, column: null }
  const text = readTextFile(
    path,
    { place, key: "the file", missing: "goalmouth list shows the shipped ones" },
    problems,
  )
  return text === null ? { problems } : readExperimentText(path, text, overrides)
}

/** Reads an experiment from text already at hand; `path` names it in messages, and paths in it start from its folder. */
export function readExperimentText(path: string, text: string, overrides: Overrides = {}): ReadResult {
  const problems: Problem[] = []
  const source = parseSource(path, dirname(path), text, problems)
  const flags = readOverrides(overrides, problems)
  if (source === null) return { problems }
  const root = rootOf(source, problems)
  if (root === null) return { problems }
  const leaves = flatten(root, KNOWN, problems)
  const experiment = readLeaves(path, root, leaves, flags, problems)
  return experiment === null ? { problems: inFileOrder(problems, path) } : { experiment }
}

function rootOf(source: Source, problems: Problem[]): Found | null {
  const root = { source, key: "", node: source.document?.contents ?? null, offset: 0 }
  if (isMap(root.node)) return root
  const rule = "a mapping of keys to values that begins with question:"
  return fail(root, problems, { kind: "wrong type", key: "the file", rule, current: show(root) })
}

type Leaves = ReadonlyMap<string, Found>

function readLeaves(
  path: string,
  root: Found,
  leaves: Leaves,
  flags: FlagValues,
  problems: Problem[],
): Experiment | null {
  const words = readWords(root, leaves, flags, problems)
  const ownLayer = readLayer(leaves, problems)
  const flagLayer = readLayer(flags.settings, problems)
  const cases = readCases(leaves.get("compare"), problems)
  const design = readDesignOf(leaves, words.seed, problems)
  const axes = readAxes(leaves, design, flags, problems)
  reportContradictions({ ownLayer, cases, axes, flags }, problems)
  reportIdleLevel([ownLayer, flagLayer], cases, axes, problems)
  const stopping = readStopping(leaves.get("shots"), leaves.get("until"), flags, problems)
  const sampling = readSampling(flags.sampling ?? leaves.get("sampling"), problems)
  const measures = readMeasures(leaves.get("measures"), problems)
  const charts = readCharts(leaves.get("charts"), problems)
  const sensitivityFound = leaves.get("sensitivity")
  const sensitivity = sensitivityFound === undefined ? null : readSensitivity(sensitivityFound, problems)
  if (!pointsAreFew(leaves.get("sweep") ?? { ...root, key: "the file" }, cases.length, axes, problems)) return null
  // a baseline is looked up among the points, so it is read even when other keys have problems
  const base = [ownLayer, flagLayer]
  const defaults = defaultSettings()
  const shared = resolveLayers(defaults, base)
  const settled = cases.map(({ name, layer }) => ({ name, settings: resolveLayers(defaults, [...base, layer]) }))
  const points = designPoints(settled, axes)
  reportEarlyEvents([...base, ...cases.map(({ layer }) => layer)], points, problems)
  reportUnusedPlaces([leaves, ...cases.map((one) => one.leaves)], points, problems)
  reportOnGoalLine(points, finder(leaves, cases, axes, flags), problems)
  const sweep = sweptOf(axes)
  const names = cases.map((item) => item.name)
  const scene = { points, sweep, cases: names, shared, held: [...flags.settings.keys()] }
  const baseline = readBaseline(leaves.get("baseline"), scene, problems)
  if (baseline !== null)
    reportNothingCompared(flags.halfWidthOf ?? leaves.get("until"), stopping, baseline.baselineOf, problems)
  const wanted = readFindings(leaves, scene, problems)
  if (problems.length > 0 || baseline === null) return null
  const experiment: Experiment = {
    name: basename(path).replace(/\.ya?ml$/i, ""),
    ...words,
    goalieName: goalieNameOf(base),
    sweep,
    cases: names,
    points,
    ...baseline,
    measures,
    ...stopping,
    ...(sampling === USUAL_SAMPLER ? {} : { sampling }),
    charts,
    shared,
    setByFile: [...new Set([...keysSet(base), ...sweep.map((swept) => swept.key)])],
    ...wanted,
    ...(design === null ? {} : { design: { kind: design.kind, points: design.points } }),
  }
  const whole = charts === USUAL_CHARTS ? withUsualCharts(experiment) : experiment
  return sensitivity === null ? whole : { ...whole, sensitivity: settleSensitivity(sensitivity, whole) }
}

/** Charts that nobody asked for: of a design the puck's eye alone, and none that the file cannot fill, so that none is missed. */
function withUsualCharts(experiment: Experiment): Experiment {
  const usual = experiment.design === undefined ? USUAL_CHARTS : (["puck's eye"] as const)
  return { ...experiment, charts: usual.filter((kind) => needOfFile(kind, experiment) === null) }
}

/** Finds where a key of a point was written: of all that may set it the one that wins. */
function finder(
  leaves: Leaves,
  cases: readonly Case[],
  axes: readonly Axis[],
  flags: FlagValues,
): Parameters<typeof reportOnGoalLine>[1] {
  const swept = new Map(axes.flat().map(({ found }) => [found.key, found]))
  const ofCase = new Map(cases.map((one) => [one.name, one.leaves]))
  return (key, point) =>
    swept.get(key) ?? ofCase.get(point.case)?.get(key) ?? flags.settings.get(key) ?? leaves.get(key)
}

/** What the file asks to be found beside rates and bests. */
function readFindings(
  leaves: Leaves,
  scene: Parameters<typeof readInteractions>[1],
  problems: Problem[],
): Pick<Experiment, "interactions" | "worstOf"> {
  const worstOf = readWorstOf(leaves.get("worst-of"), scene.cases, problems)
  const asked = leaves.get("interaction")
  const interactions = asked === undefined ? [] : readInteractions(asked, scene, problems)
  return {
    ...(interactions.length === 0 ? {} : { interactions }),
    ...(worstOf.length === 0 ? {} : { worstOf }),
  }
}

/** The design of the file, which stands in the place of a sweep. */
function readDesignOf(leaves: Leaves, seed: string, problems: Problem[]): DesignRead | null {
  const found = leaves.get("design")
  if (found === undefined) return null
  reportCrossed(found, leaves.get("sweep") ?? leaves.get("together"), problems)
  return readDesign(found, seed, problems)
}

function readWords(
  root: Found,
  leaves: Leaves,
  flags: FlagValues,
  problems: Problem[],
): { question: string; why: string; seed: string } {
  const question = leaves.get("question")
  if (question === undefined) {
    const facts = { key: "question", rule: "given in one sentence", current: "nothing" }
    fail(root, problems, { kind: "missing key", ...facts })
  }
  const why = leaves.get("why")
  const seed = flags.seed ?? leaves.get("seed")
  return {
    question: question === undefined ? "" : (readSentence(question, problems) ?? ""),
    why: why === undefined ? "" : (readSentence(why, problems) ?? ""),
    seed: seed === undefined || isNothing(seed) ? USUAL_SEED : (readText(seed, problems) ?? USUAL_SEED),
  }
}

/** Text that YAML takes for text: a number or true is no question. */
function readSentence(found: Found, problems: Problem[]): string | null {
  if (isText(found) && show(found) !== "empty text") return readText(found, problems)
  return fail(found, problems, { kind: "wrong type", key: found.key, rule: "text", current: show(found) })
}

/**
 * Swept keys as axes: each key of `sweep` is one, each group of `together` is one, the keys of a design are one. A key
 * held by a flag is none.
 */
function readAxes(leaves: Leaves, design: DesignRead | null, flags: FlagValues, problems: Problem[]): Axis[] {
  const sweepFound = leaves.get("sweep")
  const togetherFound = leaves.get("together")
  const single = sweepFound === undefined ? [] : readSweep(sweepFound, problems)
  const groups = togetherFound === undefined ? [] : readTogether(togetherFound, problems)
  if (design !== null) groups.push([...design.axis])
  const axes: Axis[] = single.filter(({ swept }) => !flags.settings.has(swept.key)).map((key) => [key])
  axes.push(...groups.filter((group) => group.length > 0))
  const seen = new Set<string>()
  for (const { found } of axes.flat()) {
    if (!seen.has(found.key)) seen.add(found.key)
    else fail(found, problems, { kind: "duplicate key", key: found.key, rule: "swept once", current: "swept again" })
  }
  for (const { found } of groups.flat()) {
    const flag = flags.settings.get(found.key)
    if (flag === undefined) continue
    const facts = { key: found.key, rule: "a key that is not swept together with others", current: show(flag) }
    fail(flag, problems, { kind: "contradiction", ...facts })
  }
  return axes
}

interface Parts {
  readonly ownLayer: Layer
  readonly cases: readonly Case[]
  readonly axes: readonly Axis[]
  readonly flags: FlagValues
}

/** A case, a sweep, a flag and a list of places must not decide the same key. */
function reportContradictions({ ownLayer, cases, axes, flags }: Parts, problems: Problem[]): void {
  const swept = new Map(axes.flat().map(({ found }) => [found.key, found]))
  for (const { name, leaves } of cases) {
    for (const [key, leaf] of leaves) {
      if (swept.has(key)) {
        const facts = { key, rule: "left to the sweep", current: `${show(leaf)} in case ${name}` }
        fail(leaf, problems, { kind: "contradiction", ...facts, remedy: "sweep it or compare it" })
      }
      const flag = flags.settings.get(key)
      if (flag === undefined) continue
      const facts = { key, rule: "a key that no compared case sets", current: show(flag) }
      fail(flag, problems, { kind: "contradiction", ...facts, remedy: `case ${name} sets it` })
    }
  }
  const placesListed = ownLayer.origins !== null || cases.some(({ layer }) => layer.origins !== null)
  for (const key of SPOT_KEYS) {
    const found = swept.get(key)
    if (!placesListed || found === undefined) continue
    const facts = { key, rule: "left unswept where play.from lists the places", current: "a sweep" }
    fail(found, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
  }
}

/** Events that happen before the puck is there, at any design point: each play is reported once. */
function reportEarlyEvents(
  layers: readonly Layer[],
  points: readonly { readonly settings: Settings }[],
  problems: Problem[],
): void {
  for (const { events: play } of layers) {
    if (play === null) continue
    const before = problems.length
    for (const { settings } of points) {
      if (settings.events === play.events) reportTooEarly(play, settings, problems)
      if (problems.length > before) break
    }
  }
}

/** Places of shots in a play that has places of its own: they would change nothing, without a word. */
function reportUnusedPlaces(
  written: readonly Leaves[],
  points: readonly { readonly settings: Settings }[],
  problems: Problem[],
): void {
  const found = written.map((leaves) => leaves.get("play.from")).find((leaf) => leaf !== undefined)
  if (found === undefined || problems.length > 0) return
  const idle = points.find(
    ({ settings }) =>
      settings.origins.length > 0 && branchesOf(settings).every((branch) => branch.settings.origins.length === 0),
  )
  if (idle === undefined) return
  const kind = idle.settings.choices["play.kind"]
  const facts = { key: "play.from", rule: `left out of the play ${kind}`, current: show(found) }
  fail(found, problems, { kind: "contradiction", ...facts, remedy: "give play.distance and play.angle" })
}

/** A depth in metres leaves no say to the depth's level: a level beside it would change nothing, without a word. */
function reportIdleLevel(
  base: readonly Layer[],
  cases: readonly Case[],
  axes: readonly Axis[],
  problems: Problem[],
): void {
  const swept = axes.flat().map(({ found }) => found)
  for (const { layer } of cases) {
    const written = [...base, layer].flatMap(({ settings }) => settings.map(({ found }) => found))
    const all = [...written, ...swept]
    const level = all.find((found) => found.key === "goalie.depth_level")
    if (level === undefined || !all.some((found) => found.key === "goalie.depth")) continue
    const facts = { key: level.key, rule: "left out where goalie.depth says how far out", current: show(level) }
    fail(level, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
    return
  }
}

/** Problems of the file from top to bottom, then those of each file it names, then those of flags. */
function inFileOrder(problems: readonly Problem[], path: string): Problem[] {
  const located = problems.filter((problem) => problem.line !== null)
  const files = [...new Set([path, ...located.map((problem) => problem.file)])]
  const sorted = files.flatMap((file) => {
    const own = located.filter((problem) => problem.file === file)
    return own.sort((a, b) => a.line! - b.line! || a.column! - b.column!)
  })
  return [...sorted, ...problems.filter((problem) => problem.line === null)]
}
