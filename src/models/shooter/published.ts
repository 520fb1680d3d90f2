import type { Metres, Probability } from "../../sim/units.ts"
import { defaultSettings, type Settings, withSettings } from "../settings.ts"
import { aimedError } from "./accuracy.ts"
import { fillLanding } from "./landing.ts"
import type { Level } from "./levels.ts"
import type { ShotType } from "./shot-types.ts"
import { shotSpeed } from "./speed.ts"

/** One published figure beside what the model says; misses stay, with a reason. */
export interface PublishedRow {
  readonly what: string
  readonly published: number
  /** Largest difference that counts as agreement, same unit as the figure. */
  readonly tolerance: number
  readonly unit: string
  readonly source: string
  readonly model: () => number
  /** "fitted": a parameter was set with this figure in sight, so that agreement proves nothing. */
  readonly kind: "check" | "fitted"
  /** Why it misses, "" where it does not. */
  readonly reason: string
}

/** Opening between the posts and under the bar in the tests: 6 ft by 4 ft. */
const HALF_WIDTH: Metres = 0.9144
const HEIGHT: Metres = 1.2192
/** Side of a corner target; assumed, the study does not print it in what was seen. */
const TARGET: Metres = 0.3

/** The corners of the mouth as targets from straight ahead. */
export type Corner = "bottom" | "top"

/** Chance that an aimed shot from `distance` straight ahead hits a square target in a corner of the mouth. */
export function cornerHit(settings: Settings, distance: Metres, corner: Corner): Probability {
  const place = { x: distance, y: 0, z: settings.quantities["shooter.release_height"] }
  const y = HALF_WIDTH - TARGET / 2
  const z = corner === "bottom" ? TARGET / 2 : HEIGHT - TARGET / 2
  const error = aimedError(settings, distance, (z - place.z) / Math.hypot(distance, y))
  // bottom target, between, top target; what lands on the ice slides into the bottom one
  const grid = {
    columns: 1,
    rows: 3,
    y: Float64Array.of(HALF_WIDTH - TARGET, HALF_WIDTH),
    z: Float64Array.of(0, TARGET, HEIGHT - TARGET, HEIGHT),
  }
  const out = { columns: new Float64Array(1), rows: new Float64Array(3), index: 0 }
  fillLanding(place, { y, z, error }, grid, out)
  return out.columns[0]! * out.rows[corner === "bottom" ? 0 : 2]!
}

/** Corner hits of an even mix of junior and under-15 shooters: the nearest to "novice to varsity". */
function testedGroup(corner: Corner, closeIn: boolean): number {
  const growth = defaultSettings().quantities["shooter.close_in_growth"]
  const levels: readonly Level[] = ["junior", "under-15"]
  const hits = levels.map((level) => {
    const quantities = { "shooter.close_in_growth": closeIn ? growth : 0 }
    return cornerHit(withSettings(shooter("wrist", level), { quantities }), 4, corner)
  })
  return hits.reduce((sum, hit) => sum + hit, 0) / hits.length
}

function shooter(shot: ShotType, level: Level): Settings {
  return withSettings(defaultSettings(), { choices: { "shooter.shot": shot, "shooter.level": level } })
}

function meanSpeed(shot: ShotType, level: Level = "professional"): number {
  return shotSpeed(shooter(shot, level), 10).mean
}

/** Two standard deviations over the mean: about the best of a few dozen shots. */
function bestSpeed(shot: ShotType): number {
  const { mean, sd } = shotSpeed(shooter(shot, "professional"), 10)
  return mean + 2 * sd
}

const CORNERS = { unit: "", source: "MichaudPaquette2009", tolerance: 0.05 } as const
const SPEEDS = { unit: "m/s", tolerance: 3, kind: "check", reason: "" } as const

/** The shooter model held against published figures, for tests and documentation. */
export const PUBLISHED_SHOTS: readonly PublishedRow[] = [
  {
    ...CORNERS,
    what: "Bottom corners hit from 4 m, standing wrist shot, no opponent (close_in_growth 0)",
    published: 0.67,
    model: () => testedGroup("bottom", false),
    kind: "fitted",
    reason: "",
  },
  {
    ...CORNERS,
    what: "Top corners hit from 4 m, standing wrist shot, no opponent (close_in_growth 0)",
    published: 0.45,
    model: () => testedGroup("top", false),
    kind: "fitted",
    reason: "",
  },
  {
    ...CORNERS,
    what: "Bottom corners hit from 4 m, all defaults",
    published: 0.67,
    model: () => testedGroup("bottom", true),
    kind: "check",
    reason:
      "In a game a shooter in tight is pressed and moving: close_in_growth stands for that, the test had none of it",
  },
  {
    ...CORNERS,
    what: "Top corners hit from 4 m, all defaults",
    published: 0.45,
    model: () => testedGroup("top", true),
    kind: "check",
    reason:
      "In a game a shooter in tight is pressed and moving: close_in_growth stands for that, the test had none of it",
  },
  {
    ...SPEEDS,
    what: "Slap shot, mean of 5 elite men",
    published: 29.14,
    source: "Woo2008",
    model: () => meanSpeed("slap"),
    kind: "fitted",
  },
  {
    ...SPEEDS,
    what: "Slap shot, mean of 4 elite men",
    published: 33.3,
    source: "Villasenor2006",
    model: () => meanSpeed("slap"),
    kind: "fitted",
  },
  {
    ...SPEEDS,
    what: "Slap shots sent at goalies in a test from 14.6 m",
    published: 37.8,
    source: "Kruisselbrink2008",
    model: () => meanSpeed("slap"),
    reason: "Shots chosen to be hard; the two measured groups of elite men are 4 to 9 m/s slower",
  },
  {
    ...SPEEDS,
    what: "Slap shot, middle of the best readings of one camp (34.9 to 41.6 m/s)",
    published: 38.25,
    source: "CampRadar2008",
    model: () => bestSpeed("slap"),
  },
  {
    ...SPEEDS,
    what: "Wrist shot, best reading of one camp",
    published: 33.1,
    source: "CampRadar2008",
    model: () => bestSpeed("wrist"),
    kind: "fitted",
  },
  {
    ...SPEEDS,
    what: "Backhand, best reading of one camp",
    published: 21.9,
    source: "CampRadar2008",
    model: () => bestSpeed("backhand"),
    kind: "fitted",
  },
  {
    ...SPEEDS,
    what: "Wrist shot, fastest of 25 men from novice to varsity at a target 4 m away",
    published: 24.1,
    source: "MichaudPaquette2009",
    model: () => meanSpeed("wrist", "junior"),
  },
]

/** Whether the model's figure is within the row's tolerance. */
export function agrees(row: PublishedRow): boolean {
  return Math.abs(row.model() - row.published) <= row.tolerance
}
