import { ZONES, type Zone } from "../sim/box/openings.ts"
import { REGIONS, type Region } from "../sim/parts.ts"

/** One measure a run can report: the only place its name, unit and meaning are written. */
export interface Measure {
  /** Key in results, column of results.csv and name in an experiment file. */
  readonly key: string
  /** What a chart or a table calls it. */
  readonly title: string
  /** Unit of the stored value; a share is 0 to 1 and printed in %. */
  readonly unit: "share" | "m" | "m2" | "sr" | "s" | "goals" | "shots"
  /** A sampled measure carries an interval; an exact one is geometry. */
  readonly kind: "sampled" | "exact"
  readonly definition: string
}

function sampled(key: string, title: string, definition: string, unit: Measure["unit"] = "share"): Measure {
  return { key, title, unit, kind: "sampled", definition }
}
function exact(key: string, title: string, unit: Measure["unit"], definition: string): Measure {
  return { key, title, unit, kind: "exact", definition }
}

/** Goals fewer than at the baseline in so many attempts. */
export const PER_ATTEMPTS = 100
export const GOALS_SAVED = "goals_saved_per_100_attempts"
export const SHOTS_TO_SEE = "shots_to_see"

/** Measures of the open net while the goalie moves, from a few shots of their own. */
export const OPEN_NET_KEYS: readonly string[] = ["open_at_release", "open_most", "open_net_time_s"]

/** Column of the share of saves that one region of the body makes. */
export function savesByKey(region: Region): string {
  return `saves_by_${region.replaceAll(" ", "_")}`
}

/** Column of the share of goals that go in through one zone of the mouth. */
export function goalsInKey(zone: Zone): string {
  return `goals_in_${zone.replaceAll(/[ -]/g, "_")}`
}

/** Keys of the save rates of second shots by the time since the first release, and that time in words. */
export const SECOND_DELAYS = [
  "second_save_rate_1",
  "second_save_rate_2",
  "second_save_rate_3",
  "second_save_rate_4",
] as const
const SECOND_WORDS = [
  "within a second",
  "in the second second",
  "in the third second",
  "later than three seconds",
] as const

/** Every measure, in the order of the columns of results.csv. */
export const MEASURES: readonly Measure[] = [
  sampled("save_rate", "Save rate", "Saves over shots on goal; iron that stays out is no shot on goal"),
  sampled("goal_rate", "Goal rate", "Goals over all attempts, those that miss the net included"),
  sampled(
    GOALS_SAVED,
    "Goals saved",
    "Goals fewer than at the baseline in 100 attempts, the same ones, misses included; goals on the rebound count where rebounds are played",
    "goals",
  ),
  sampled(
    SHOTS_TO_SEE,
    "Shots to see it",
    "Shots on goal in each of two arms, on the ice, that show the difference of the save rate from the baseline as more than luck (80 % power, two-sided 5 %)",
    "shots",
  ),
  sampled("on_goal_rate", "On goal", "Shots on goal (saves and goals) over all attempts"),
  sampled("miss_rate", "Missed the net", "Attempts that pass wide or high over all attempts"),
  sampled("iron_rate", "Hit the iron", "Attempts that touch post or crossbar over all attempts"),
  sampled("no_shot_rate", "No shot", "Plays that end before anyone shoots, a pass missed or cut off, over all plays"),
  sampled("blocked_rate", "Blocked", "Attempts that another player stops over all attempts"),
  sampled("tipped_rate", "Tipped", "Shots on goal that a stick in front of the goalie touches, over all shots on goal"),
  sampled(
    "hidden_share",
    "Hidden",
    "Share of the flight to the goalie, shots on goal, before the puck comes into sight",
  ),
  sampled(
    "sight_time_s",
    "Time in sight",
    "Time for which the goalie sees the puck before it is level with the body, shots on goal; of a tipped shot, after the tip",
    "s",
  ),
  sampled("position_rate", "Saved by position", "Shots on goal that the body stops frozen as it stands at release"),
  sampled(
    "reach_rate",
    "Added by reach",
    "Save rate minus saved by position: what moving adds, less the lanes it opens",
  ),
  sampled(
    "not_set_rate",
    "Not set at release",
    "Shots that leave the stick before the goalie is set, over all attempts",
  ),
  sampled("arrival_margin_s", "Arrival margin", "Time between being set and release; negative is late", "s"),
  sampled("lateral_travel_m", "Travel", "Distance the goalie covers before release", "m"),
  sampled(
    "open_at_release",
    "Open net at release",
    "Part of the mouth that the puck sees past the goalie as it leaves the stick; over shots with a pass, a carry or a cut before them",
  ),
  sampled(
    "open_most",
    "Most open net",
    "Largest part of the mouth that the puck sees past the goalie from the start of the last pass, carry or cut to the release",
  ),
  sampled(
    "open_net_time_s",
    "Open net over the move",
    "That part added up over the same time (share times seconds): as long as a wholly open net would amount to the same",
    "s",
  ),
  sampled("rebound_rate", "Rebounds", "Saves that leave a loose puck over all saves"),
  sampled("second_shot_rate", "Second shots", "Saves after which an attacker shoots the loose puck, over all saves"),
  sampled(
    "second_goal_rate",
    "Second-shot goals",
    "Goals scored on the rebound over all attempts; the goal rate does not count them",
  ),
  sampled("second_save_rate", "Second shots saved", "Second shots saved over second shots on goal"),
  ...SECOND_DELAYS.map((key, i) =>
    sampled(
      key,
      `Second shots saved, ${SECOND_WORDS[i]!}`,
      `Second shots saved over those on goal, released ${SECOND_WORDS[i]!} of the first`,
    ),
  ),
  sampled(
    "block_rate",
    "Blocked by anticipation",
    "Shots on goal that the goalie answers with a drop begun before the release",
  ),
  sampled(
    "unreachable_share",
    "Targets out of reach",
    "Aimed places that this speed cannot reach, or only steeper than anyone aims, moved to the nearest one",
  ),
  ...REGIONS.map((region) =>
    sampled(savesByKey(region), `Saved by ${region}`, `Saves made first by the ${region} over all saves`),
  ),
  ...ZONES.map((zone) =>
    sampled(
      goalsInKey(zone),
      `Goals ${zone}`,
      `Goals that go in through the ${zone}, of the mouth's six zones, over all goals`,
    ),
  ),
  exact(
    "net_covered",
    "Net covered",
    "share",
    "Part of the mouth the goalie, in the place asked for, hides from the puck's centre",
  ),
  exact("box_area_m2", "Box", "m2", "Open area of the mouth as the puck sees it, measured on the goal plane"),
  exact("solid_angle_sr", "Open solid angle", "sr", "Solid angle of the open part of the mouth at the puck's centre"),
  exact(
    "puck_area_m2",
    "Open to a puck",
    "m2",
    "Area of the goal plane the middle of a whole puck can cross untouched",
  ),
  exact("clear_circle_m", "Largest clear circle", "m", "Diameter of the largest circle that fits the open mouth"),
  exact(
    "depth_taken_m",
    "Depth taken",
    "m",
    "Depth asked for, after the skates have been kept inside the post; on the move a goalie may be elsewhere at the release",
  ),
]

const BY_KEY: ReadonlyMap<string, Measure> = new Map(MEASURES.map((measure) => [measure.key, measure]))

/** Names a file may list under `measures`. */
export const MEASURE_KEYS: readonly string[] = MEASURES.map((measure) => measure.key)

/** The measure of that key, or undefined for a key that is none. */
export function measureOf(key: string): Measure | undefined {
  return BY_KEY.get(key)
}

/** Follows a measure's key where the difference from the baseline is meant. */
export const VERSUS_BASELINE = "_vs_baseline"
