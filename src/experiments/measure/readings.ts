import { dirname } from "node:path"
import { isMap, isSeq, Scalar } from "yaml"
import { QUANTITIES } from "../../models/settings.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import { type Field, keysOf, SETTING_KEYS } from "../grammar.ts"
import { formatQuantity } from "../quantity.ts"
import { readTextFile } from "../read/file.ts"
import { flatten, notAMapping } from "../read/flatten.ts"
import { type Problem, problemAt } from "../read/problem.ts"
import { fail, readQuantity, readSetting, readText, type Setting } from "../read/setting.ts"
import { type Found, flagFound, isNothing, itemsOf, parseSource, scalarText, show } from "../read/source.ts"
import { joinOr } from "../wording.ts"
import { type Reading, type Timing, timingOf, WATCH_ERROR } from "./instruments.ts"
import { passingLimits } from "./invert.ts"
import { DROP_KEY, TIMED, type Timed } from "./timed.ts"

/** One movement with its readings. */
export interface TimedMovement {
  readonly timed: Timed
  readonly distance: Metres
  readonly timing: Timing
}

/** All that was measured of one goalie. */
export interface Readings {
  readonly name: string | null
  readonly about: string | null
  /** Settings of the goalie that are written as they were given: stature, mass, gear … */
  readonly given: readonly Setting[]
  readonly movements: readonly TimedMovement[]
  readonly drop: Timing | null
}

/** Keys beside the goalie's own settings. */
export const READING_FIELDS: readonly Field[] = [
  { key: "name", why: "What the report calls the goalie" },
  { key: "about", why: "A remark about the goalie" },
  { key: "frame_rate", why: "Frames a second the video was filmed at" },
  { key: "watch_error", why: "What the hand on the stop-watch errs by from reading to reading; 0.1 s unless given" },
  ...TIMED.flatMap(({ key, name, distance }) => [
    { key, why: `Readings of the ${name}: 0.85 s, or 26 frames` },
    {
      key: `${key}_distance`,
      why: `Distance of the ${name}${distance === null ? "" : "; the goal's opening unless given"}`,
    },
  ]),
  { key: DROP_KEY, why: "Readings of the drop to the knees: 9 frames, or 0.31 s" },
]

/** Settings of the goalie that a sheet may give, without their section. */
const GIVEN_KEYS = SETTING_KEYS.filter((key) => key.startsWith("goalie.")).map((key) => key.slice("goalie.".length))
const KNOWN: readonly string[] = [...new Set([...keysOf(READING_FIELDS), ...GIVEN_KEYS])]

/** Longest time and rates that are not slips of the pen. */
const TIME_LIMITS = { dimension: "time", least: 0.01, most: 60 } as const
const ERROR_LIMITS = { dimension: "time", least: 0.001, most: 1 } as const
const RATE_LIMITS = { dimension: "number", least: 10, most: 2000 } as const
const DISTANCE_LIMITS = { dimension: "length", least: 0.3, most: 20 } as const
const PARTING = /(?<=[a-z])\s*[,;]\s*/i
const FRAMES = /^(\d+(?:\.\d+)?)\s*(?:frames?|fr)$/i

/** Values of flags by the key each stands for; several of one key are several readings. */
export type ReadingFlags = readonly { readonly flag: string; readonly key: string; readonly text: string }[]

/** Reads a file of readings and the flags that add to it or replace its keys; every problem comes back at once. */
export function readReadings(
  path: string | null,
  flags: ReadingFlags,
): { readonly readings: Readings } | { readonly problems: readonly Problem[] } {
  const problems: Problem[] = []
  const found = path === null ? new Map<string, Found[]>() : fileLeaves(path, problems)
  for (const key of new Set(flags.map((flag) => flag.key))) {
    const own = flags.filter((flag) => flag.key === key)
    found.set(
      key,
      own.map(({ flag, text }) => flagFound(`--${flag} ${text}`, key, text)),
    )
  }
  const place = { file: path ?? "the flags", line: null, column: null }
  if (found.size === 0 && problems.length === 0) {
    const remedy = "goalmouth measure --sheet writes a sheet to fill in"
    const rule = "at least one reading or measure, such as post_to_post: 0.85 s"
    problems.push(problemAt(place, { kind: "missing key", key: "the readings", rule, current: "none", remedy }))
  }
  const readings = readLeaves(found, problems)
  return problems.length > 0 ? { problems } : { readings }
}

/** The file's keys that have a value; a sheet's empty lines are no readings. */
function fileLeaves(path: string, problems: Problem[]): Map<string, Found[]> {
  const leaves = new Map<string, Found[]>()
  const place = { file: path, line: null, column: null }
  const missing = "goalmouth measure --sheet writes one to fill in"
  const text = readTextFile(path, { place, key: "the file", missing }, problems)
  const source = text === null ? null : parseSource(path, dirname(path), text, problems)
  if (source === null) return leaves
  const root: Found = { source, key: "", node: source.document?.contents ?? null, offset: 0 }
  if (!isMap(root.node)) {
    problems.push(notAMapping({ ...root, key: "the file of readings" }))
    return leaves
  }
  for (const [key, leaf] of flatten(root, KNOWN, problems)) if (!isNothing(leaf)) leaves.set(key, [leaf])
  return leaves
}

function readLeaves(found: ReadonlyMap<string, readonly Found[]>, problems: Problem[]): Readings {
  const last = (key: string): Found | undefined => found.get(key)?.at(-1)
  const text = (key: string): string | null => {
    const leaf = last(key)
    return leaf === undefined ? null : readText(leaf, problems)
  }
  const error = number(last("watch_error"), ERROR_LIMITS, problems) ?? WATCH_ERROR
  const rateFound = last("frame_rate")
  // an unreadable rate is one problem, not another one for each reading
  const rate = rateFound === undefined ? null : (number(rateFound, RATE_LIMITS, problems) ?? RATE_LIMITS.least)
  const timing = (key: string): Timing | null => {
    const readings = readTimes(found.get(key) ?? [], error, rate, problems)
    return readings.length === 0 ? null : timingOf(readings)
  }

  const given: Setting[] = []
  for (const key of GIVEN_KEYS) {
    const leaf = last(key)
    const setting = leaf === undefined ? null : readSetting({ ...leaf, key: `goalie.${key}` }, problems)
    if (setting !== null) given.push(setting)
  }
  const movements = TIMED.flatMap((timed) => {
    const movement = readMovement(timed, timing(timed.key), last(timed.key), last(`${timed.key}_distance`), problems)
    return movement === null ? [] : [movement]
  })
  return {
    name: text("name"),
    about: text("about"),
    given,
    movements,
    drop: readDrop(timing(DROP_KEY), found, problems),
  }
}

function readMovement(
  timed: Timed,
  timing: Timing | null,
  readings: Found | undefined,
  distanceFound: Found | undefined,
  problems: Problem[],
): TimedMovement | null {
  const written = number(distanceFound, DISTANCE_LIMITS, problems)
  if (timing === null || readings === undefined) return null
  const distance = distanceFound === undefined ? timed.distance : written
  if (distance === null) {
    if (distanceFound !== undefined) return null
    const key = `${timed.key}_distance`
    const facts = { key, rule: `given with the readings of the ${timed.name}`, current: "missing" }
    return fail(readings, problems, { kind: "missing key", ...facts, remedy: `measure it and write ${key}: 2 m` })
  }
  const over = ` over ${formatQuantity(distance, "length", "m")}`
  const limits = passingLimits(timed.mode, distance)
  return checkTime(readings, timing.mean, limits, over, problems) ? { timed, distance, timing } : null
}

/** The drop's readings stand in for the setting of the same name. */
function readDrop(
  drop: Timing | null,
  found: ReadonlyMap<string, readonly Found[]>,
  problems: Problem[],
): Timing | null {
  if (drop === null) return null
  checkTime(found.get(DROP_KEY)!.at(-1)!, drop.mean, QUANTITIES["goalie.drop_time"], "", problems)
  const told = found.get("drop_time")?.at(-1)
  if (told !== undefined) {
    const facts = { key: "drop_time", rule: "left out where drop gives readings", current: show(told) }
    fail(told, problems, { kind: "contradiction", ...facts, remedy: "keep one of the two" })
  }
  return drop
}

/** Whether a mean time gives values that a goalie file may hold. */
function checkTime(
  found: Found,
  mean: Seconds,
  limits: { readonly least: number; readonly most: number },
  over: string,
  problems: Problem[],
): boolean {
  if (mean >= limits.least && mean <= limits.most) return true
  const show = (seconds: number): string => formatQuantity(seconds, "time", "s")
  const facts = {
    key: found.key,
    rule: `between ${show(limits.least)} and ${show(limits.most)}${over}`,
    current: `${show(mean)} on average`,
    remedy: "check distance, unit and frame rate",
  }
  fail(found, problems, { kind: "out of range", ...facts })
  return false
}

/** Readings of one movement: a list, or one or several parted by commas. */
function readTimes(
  found: readonly Found[],
  watchError: Seconds,
  frameRate: number | null,
  problems: Problem[],
): Reading[] {
  const items = found.flatMap((leaf) => (isSeq(leaf.node) ? itemsOf(leaf) : [leaf]))
  return items.flatMap((item) => {
    const text = scalarText(item)
    // a comma after a unit parts two readings; one between digits is a slip that parsing explains
    const parts = text === null ? [item] : text.split(PARTING).map((part) => ({ ...item, node: new Scalar(part) }))
    return parts.flatMap((part) => readTime(part, watchError, frameRate, problems) ?? [])
  })
}

function readTime(item: Found, watchError: Seconds, frameRate: number | null, problems: Problem[]): Reading | null {
  const frames = FRAMES.exec(scalarText(item) ?? "")?.[1]
  if (frames === undefined) {
    const measured = readQuantity(item, TIME_LIMITS, problems)
    return measured === null ? null : { seconds: measured.value, error: watchError }
  }
  if (frameRate === null) {
    const facts = { key: "frame_rate", rule: `given for ${item.key} in frames`, current: `missing for ${show(item)}` }
    return fail(item, problems, {
      kind: "missing key",
      ...facts,
      remedy: "write the rate it was filmed at: frame_rate: 60",
    })
  }
  if (Number(frames) > 0) return { seconds: Number(frames) / frameRate, error: 1 / frameRate }
  const facts = {
    key: item.key,
    rule: `at least 1 frame, or a time such as ${joinOr(["0.31 s", "310 ms"])}`,
    current: show(item),
  }
  return fail(item, problems, { kind: "out of range", ...facts })
}

function number(
  found: Found | undefined,
  limits: { readonly dimension: "time" | "number" | "length"; readonly least: number; readonly most: number },
  problems: Problem[],
): number | null {
  return found === undefined ? null : (readQuantity(found, limits, problems)?.value ?? null)
}
