import { CHOICES, QUANTITIES } from "../models/settings.ts"

/**
 * What an experiment file may hold. The reader and the JSON Schema for editors are both made from this table and from
 * the models' parameters, so a new parameter appears in both by itself.
 */
export interface Field {
  readonly key: string
  readonly why: string
}

/** Keys of the file beside the settings. */
export const FILE_FIELDS = [
  { key: "question", why: "What this experiment answers, in one sentence" },
  { key: "why", why: "Why the answer matters" },
  { key: "sweep", why: "Keys and the values each takes; several keys are crossed" },
  { key: "together", why: "Groups of keys that move in lockstep, each with a list of the same length" },
  {
    key: "design",
    why: "Points spread over ranges of several quantities at once, in place of a sweep: a latin hypercube or sobol",
  },
  { key: "sensitivity", why: "Which of many quantities a measure hangs on most, varied all at once over their ranges" },
  { key: "compare", why: "Named cases, each with the settings that make it different" },
  {
    key: "interaction",
    why: "How much more a change is worth in one circumstance than in another: one mapping or a list of them",
  },
  {
    key: "worst-of",
    why: "Names of cases that nobody in the net can choose among: at each point the worst of them, and where that is best",
  },
  { key: "baseline", why: "The point that others are compared with: values of swept keys, and the case" },
  { key: "measures", why: "What to report; absent means the usual ones" },
  { key: "shots", why: "Shots for each point" },
  { key: "until", why: "Go on until the save rate, or its difference from the baseline, is known this well" },
  {
    key: "sampling",
    why: "Where the draws of the shots come from: scrambled Sobol points, the usual ones, or independent draws, which need more shots",
  },
  { key: "seed", why: "Any text; the same seed gives the same results" },
  { key: "charts", why: "Pictures to draw" },
] as const satisfies readonly Field[]

/** Keys that may stand among the settings although they are no single parameter. */
export const SETTING_FIELDS = [
  { key: "goalie", why: "A goalie file, none, or a mapping of settings" },
  { key: "goalie.file", why: "Goalie file whose settings hold unless this file says otherwise" },
  { key: "goalie.name", why: "What the report calls the goalie" },
  { key: "goalie.about", why: "A remark about the goalie" },
  { key: "play.from", why: "Places shots come from: spots, polygons, wedges, or a CSV file of spots" },
  { key: "play.players", why: "Who takes part in timed events: a name and a place each" },
  { key: "play.events", why: "A play of your own: what happens, in order, each at its time" },
] as const satisfies readonly Field[]

export const CASE_FIELDS = [{ key: "name", why: "What charts and tables call the case" }] as const
export const BASELINE_FIELDS = [{ key: "case", why: "Name of the compared case" }] as const

/** Keys of a goalie file beside the goalie's settings. */
export const GOALIE_FILE_FIELDS = [
  { key: "name", why: "What the report calls the goalie" },
  { key: "about", why: "A remark about the goalie" },
  { key: "file", why: "Another goalie file to start from" },
] as const satisfies readonly Field[]

export const RANGE_FIELDS = [
  { key: "from", why: "First value" },
  { key: "to", why: "Last value, included when the steps reach it" },
  { key: "step", why: "Distance from one value to the next" },
  { key: "steps", why: "How many values, both ends included" },
] as const satisfies readonly Field[]

/** A range that is varied over as a whole and not stepped through. */
export const SPAN_FIELDS = [
  { key: "from", why: "Least value" },
  { key: "to", why: "Greatest value" },
] as const satisfies readonly Field[]

export const DESIGN_FIELDS = [
  { key: "kind", why: "latin hypercube: every range cut evenly, any number of points; sobol: even in all at once" },
  { key: "over", why: "Quantities and the range of each; nothing after a key means its plausible range" },
  { key: "points", why: "How many points; a power of two for sobol" },
] as const satisfies readonly Field[]

export const SENSITIVITY_FIELDS = [
  { key: "of", why: "The measure; save rate unless given" },
  {
    key: "over",
    why: "training: what a goalie can train; assumptions: all that is assumed; or a list of quantities, or their ranges",
  },
  { key: "sets", why: "Points of each of the two sets, a power of two; there are sets x (quantities + 2) values" },
  { key: "shots", why: "Shots behind each value, the same shots for all" },
] as const satisfies readonly Field[]

export const INTERACTION_FIELDS = [
  { key: "name", why: "What the answer calls it" },
  { key: "change", why: "The swept key that changes" },
  { key: "from", why: "Its value without the change; the first of the sweep unless given" },
  { key: "to", why: "Its value with the change; the last of the sweep unless given" },
  { key: "between", why: "The two circumstances: names of two cases, or a swept key of two values" },
] as const satisfies readonly Field[]

export const UNTIL_FIELDS = [
  { key: "half-width", why: "Wanted half-width of the interval" },
  {
    key: "of",
    why: "Whose interval: of every save rate, or of every difference from the baseline; absent means save rate",
  },
  { key: "most", why: "Stop at this many shots for each point all the same" },
] as const satisfies readonly Field[]

export const PLACE_FIELDS = [
  { key: "label", why: "Name of the place in results" },
  { key: "weight", why: "How often shots come from here, relative to the other places" },
  { key: "distance", why: "Spot: distance from the centre of the goal line" },
  { key: "angle", why: "Spot: angle from straight ahead, positive toward the goalie's left" },
  { key: "x", why: "Spot: distance out from the goal line" },
  { key: "y", why: "Spot: distance to the goalie's left of the middle" },
  { key: "corners", why: "Polygon: at least three corners in order, each [x, y]" },
  { key: "nearest", why: "Wedge: nearest distance from the centre of the goal line" },
  { key: "farthest", why: "Wedge: farthest distance" },
  { key: "from", why: "Wedge: first angle" },
  { key: "to", why: "Wedge: last angle" },
] as const satisfies readonly Field[]

/** Where a player of timed events stands, or the puck is carried to. */
export const SPOT_FIELDS = [
  { key: "distance", why: "Distance from the centre of the goal line" },
  { key: "angle", why: "Angle from straight ahead, positive toward the goalie's left" },
  { key: "x", why: "Distance out from the goal line" },
  { key: "y", why: "Distance to the goalie's left of the middle" },
] as const satisfies readonly Field[]

/** One timed event: its time, and one of puck, carry, cut, pass and shot. */
export const EVENT_FIELDS = [
  { key: "at", why: "When it happens; times count from any zero" },
  { key: "puck", why: "First of all: who has the puck" },
  { key: "carry", why: "The puck is carried in sight of the goalie: the place it is carried to" },
  { key: "cut", why: "The puck is taken aside of a sudden, as in a deke: the place it is taken to" },
  { key: "arrives", why: "Carry or cut: when the puck gets there" },
  { key: "pass", why: "Who the puck is passed to" },
  { key: "speed", why: "Pass: its speed as it leaves the stick; play.pass_speed unless given" },
  { key: "flies", why: "Pass: how far a saucer pass flies before it lands" },
  { key: "shot", why: "Last of all: the shot, by its type" },
] as const satisfies readonly Field[]

/** Every key that is a parameter, in the order of the models. */
export const SETTING_KEYS: readonly string[] = [...Object.keys(QUANTITIES), ...Object.keys(CHOICES)]

/** The keys of a table of fields. */
export function keysOf(fields: readonly Field[]): string[] {
  return fields.map((field) => field.key)
}

/** Everything that may hold nested keys: `goalie`, `play`, `goalie.reaction` … */
export function groupsOf(keys: readonly string[]): ReadonlySet<string> {
  const groups = new Set<string>()
  for (const key of keys) {
    const parts = key.split(".")
    for (let length = 1; length < parts.length; length++) groups.add(parts.slice(0, length).join("."))
  }
  return groups
}
