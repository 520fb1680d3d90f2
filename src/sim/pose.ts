import type { OpenBody, Posture } from "./parts.ts"
import type { Strata } from "./strata.ts"

/** One goalie variant: a posture and the numbers of its clocks and station. One pose is one column of every result. */
export interface Pose {
  /** Index into {@link Scene.postures}. */
  readonly posture: number
  /** [POSE_LENGTH] */
  readonly numbers: Float64Array
  /** [MOVEMENT_LENGTH] how this goalie moves (see motion/across.ts); read only where something goes before the shot, or after it. */
  readonly movement: Float64Array
  /** [PLAN_LENGTH] what this goalie does before the shot (see play/goalie-plan.ts); read only in such plays. */
  readonly plan: Float64Array
  /** [CONTROL_LENGTH] what this goalie makes of rebounds (see rebound/rebound-table.ts); read only where they are played. */
  readonly control: Float64Array
}

/** Columns of a pose's numbers: SI. */
export const DEPTH = 0
export const DEPTH_ERROR = 1
export const OFF_LINE_ERROR = 2
export const ANGLE_BIAS = 3
export const ANGLE_ERROR = 4
export const TURN_ERROR = 5
/** The foremost part comes no nearer to the puck than this, m. */
export const STAND_OFF = 6
export const REACTION_MEDIAN = 7
export const REACTION_SPREAD = 8
export const DROP_LEAD = 9
export const DROP_TIME = 10
export const HIGH_PUCK = 11
export const HIGH_DROP = 12
export const BLOCK_NEVER = 13
export const BLOCK_ALWAYS = 14
export const BLOCK_LEAD = 15
export const ANSWER = 16
/** 1 where the catching glove is on the goalie's left (+v), -1 on the right. */
export const GLOVE_SIDE = 17
/** Zones of the mouth: low under this height, m; middle within this of the centre, m. */
export const ZONE_LOW = 18
export const ZONE_MIDDLE = 19
/** Added to the reaction of a goalie who is moving or not yet set at the release, s. */
export const UNSET_PENALTY = 20
/** Off the line on purpose, to see past a body, m: positive toward the short side, the goalie's left straight on. */
export const PEEK = 21
/** A puck is seen from the start of the first stretch in sight that lasts this long, s. */
export const LOOK_NEEDED = 22
/** Share of the drop's lead that is kept when the release is not seen. */
export const LEAD_KEPT = 23
/** Where the eyes are in the stance, goalie's frame, m. */
export const EYE_U = 24
export const EYE_V = 25
export const EYE_Z = 26
/** How far the goalie turns on the post for a puck on or behind the goal line, rad. */
export const POST_TURN = 27
export const POSE_LENGTH = 28

/** Values of ANSWER. */
export const ANSWER_BY_DISTANCE = 0
export const ANSWER_REACT = 1
export const ANSWER_BLOCK = 2
export const ANSWER_FROZEN = 3
/** The net is empty. */
export const ANSWER_ABSENT = 4

/**
 * Everything a batch of shots needs, as flat numbers. Structured-clone safe; made by models, run by sim.
 */
export interface Scene {
  /** [WORLD_LENGTH] */
  readonly world: Float64Array
  /** What the puck does before the shot, see play/course.ts */
  readonly play: Float64Array
  /** Who stands between puck and goalie, see traffic/traffic.ts; empty where nobody does. */
  readonly traffic: Float64Array
  /** What happens to loose pucks, see rebound/rebound-table.ts; empty where rebounds are not played. */
  readonly rebound: Float64Array
  readonly strata: Strata
  /** Names of the places shots come from, by the strata's SPOT column. */
  readonly spots: readonly string[]
  readonly postures: readonly Posture[]
  /** [postures x OPENINGS] each body as movement opens it (see motion/opening.ts); none where the stance stays closed. */
  readonly opened: readonly (readonly OpenBody[])[]
  readonly poses: readonly Pose[]
}
