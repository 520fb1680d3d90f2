import { chosenFrame } from "../../models/goal/chosen-frame.ts"
import { buildPosture } from "../../models/goalie/posture.ts"
import { cueError, type Surroundings } from "../../models/reference/cue.ts"
import { type OffTheLine, offTheLine } from "../../models/reference/cue-error.ts"
import { LINES, type LineName, missOfLine, offInLine } from "../../models/reference/marks-in-line.ts"
import { CUE_NAMES, type CueName, MARK_NAMES, type MarkName } from "../../models/reference/parameters.ts"
import { type DepthLevel, depthOfLevel } from "../../models/rink/depth.ts"
import type { Rink } from "../../models/rink/rink.ts"
import { QUANTITIES, type QuantityKey, type Settings, withSettings } from "../../models/settings.ts"
import { STATION_LENGTH, STATION_X, STATION_Y, stand } from "../../sim/station.ts"
import type { Metres, Radians } from "../../sim/units.ts"
import type { ShootingSpot, SurveyRequest } from "./request.ts"

/** A goalie this near the line is on it. */
const ON_LINE: Metres = 0.001

/** What to do with a cue: use it, check it on the ice first, or leave it. */
export const VERDICTS = ["trust", "check", "distrust"] as const
export type Verdict = (typeof VERDICTS)[number]

/** Where one cue leads for a puck at one spot. */
export interface CueAtSpot extends OffTheLine {
  /** Bias and spread together: the root of the mean square. */
  readonly size: Metres
  readonly verdict: Verdict
}

/** One cue at every spot, in the order of the spots. */
export interface CueRow {
  readonly cue: CueName
  readonly mark: MarkName | null
  readonly at: readonly CueAtSpot[]
  /** The worst over the spots. */
  readonly verdict: Verdict
  /** Spot at which it leads off farthest, and its size there with every assumption at its low and at its high end. */
  readonly worst: number
  readonly assumed: { readonly low: Metres; readonly high: Metres }
}

/** A line along the paint that is said to lead to the middle of the net. */
export interface MarksInLine {
  readonly line: LineName
  readonly here: InLine
  readonly home: InLine | null
}

/** By how much such a line misses on one sheet, and how far off it puts a goalie. */
export interface InLine {
  /** Positive: the true line passes outside the other mark. */
  readonly miss: Metres
  /** "holds" within the trusted width, "about" within twice that or so, else "loose". */
  readonly verdict: "holds" | "about" | "loose"
  readonly depth: Metres
  /** Positive: farther from the middle of the ice than the true line. */
  readonly off: Metres
}

export interface SurveyedSpot extends ShootingSpot {
  readonly bearing: Radians
  readonly depth: Metres
  /** Middle between the skates of a goalie on angle. */
  readonly stationX: Metres
  readonly stationY: Metres
  /** True where the goalie cannot be on the line and stands along the post side: there the post is the cue. */
  readonly atPost: boolean
}

/** Everything that a survey answers; plain data. */
export interface Survey {
  readonly request: SurveyRequest
  readonly spots: readonly SurveyedSpot[]
  readonly rows: readonly CueRow[]
  readonly lines: readonly MarksInLine[]
  readonly mouthHalfWidth: Metres
}

/** Works out where each cue leads at each spot. */
export function surveyRink(request: SurveyRequest): Survey {
  const { settings, here, home } = request
  const mouthHalfWidth = 0.5 * chosenFrame(settings).width
  const halfStance = buildPosture(settings).halfStance
  const spots = request.spots.map((spot) => standAt(settings, spot, halfStance, mouthHalfWidth))
  const row = (cue: CueName, mark: MarkName | null): CueRow => {
    const around = { here, home, mark: mark ?? "end-zone spot", mouthHalfWidth }
    const at = (given: Settings) => spots.map((spot) => leadAt(cue, given, around, spot))
    const usual = at(settings)
    const sizes = usual.map(({ size }) => size)
    const worst = Math.max(0, sizes.indexOf(Math.max(...sizes)))
    const verdict = VERDICTS[Math.max(0, ...usual.map((lead) => VERDICTS.indexOf(lead.verdict)))]!
    const [low, high] = [settingsAt(request, "low"), settingsAt(request, "high")].map((s) => at(s)[worst]?.size ?? 0)
    return { cue, mark, at: usual, verdict, worst, assumed: { low: low!, high: high! } }
  }
  const rows = CUE_NAMES.flatMap((cue) =>
    cue === "ice marking" ? MARK_NAMES.map((mark) => row(cue, mark)) : [row(cue, null)],
  )
  const lines = LINES.map((line) => ({
    line,
    here: inLine(settings, here.rink, line),
    home: home === null ? null : inLine(settings, home.rink, line),
  }))
  return { request, spots, rows, lines, mouthHalfWidth }
}

function leadAt(cue: CueName, settings: Settings, around: Surroundings, spot: SurveyedSpot): CueAtSpot {
  const error = cueError(cue, settings, around, spot.depth, spot.x, spot.y)
  return judged(settings, offTheLine(error, spot.depth))
}

/** Every assumption about the cues that the file left alone, at one end of its range: a cue errs more with each of them. */
function settingsAt(request: SurveyRequest, end: "low" | "high"): Settings {
  const assumed = (Object.keys(QUANTITIES) as QuantityKey[]).filter((key) => {
    const isCue = key.startsWith("reference.") || key === "shooter.reach"
    return isCue && QUANTITIES[key].source === "assumption" && !request.setByFile.includes(key)
  })
  const quantities = Object.fromEntries(assumed.map((key) => [key, QUANTITIES[key][end]]))
  return withSettings(request.settings, { quantities })
}

function standAt(settings: Settings, spot: ShootingSpot, halfStance: Metres, mouthHalfWidth: Metres): SurveyedSpot {
  const bearing = Math.atan2(spot.y, spot.x)
  const depth = depthAt(settings, spot.x, spot.y)
  const station = new Float64Array(STATION_LENGTH)
  const postTurn = settings.quantities["goalie.post_turn"]
  stand(depth, spot.x, spot.y, halfStance, mouthHalfWidth, 0, 0, 0, 0, postTurn, station)
  const [stationX, stationY] = [station[STATION_X]!, station[STATION_Y]!]
  const off = stationY * Math.cos(bearing) - stationX * Math.sin(bearing)
  return { ...spot, bearing, depth, stationX, stationY, atPost: Math.abs(off) > ON_LINE }
}

/** Depth on the line to a puck at (x, y): as the settings say, or by the level's place on the crease here. */
export function depthAt(settings: Settings, x: Metres, y: Metres): Metres {
  const depth = settings.quantities["goalie.depth"]
  if (!Number.isNaN(depth)) return depth
  return depthOfLevel(settings, settings.choices["goalie.depth_level"] as DepthLevel, Math.atan2(y, x))
}

function judged(settings: Settings, off: OffTheLine): CueAtSpot {
  const size = Math.hypot(off.bias, off.spread)
  const q = settings.quantities
  const verdict =
    size <= q["reference.trust_within"] ? "trust" : size <= q["reference.distrust_beyond"] ? "check" : "distrust"
  return { ...off, size, verdict }
}

function inLine(settings: Settings, rink: Rink, line: LineName): InLine {
  const spot = line === "spot and crease mark" ? rink.endSpot : rink.neutralSpot
  const depth = depthAt(settings, spot.x, spot.y)
  const miss = missOfLine(rink, line)
  const q = settings.quantities
  const size = Math.abs(miss)
  const verdict =
    size <= q["reference.trust_within"] ? "holds" : size <= q["reference.distrust_beyond"] ? "about" : "loose"
  return { miss, verdict, depth, off: offInLine(rink, line, depth) }
}
