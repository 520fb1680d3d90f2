import * as P from "../../sim/pose.ts"
import { creaseDepth } from "../rink/depth.ts"
import type { Settings } from "../settings.ts"
import { biasAbout, referenceOfPlay } from "./reference-of-play.ts"

const ANSWERS: Readonly<Record<string, number>> = {
  "by distance": P.ANSWER_BY_DISTANCE,
  react: P.ANSWER_REACT,
  block: P.ANSWER_BLOCK,
  frozen: P.ANSWER_FROZEN,
}

/** The numbers of one pose: station, clocks and how the goalie answers; the eyes are the body's. */
export function poseNumbers(settings: Settings): Float64Array {
  const q = settings.quantities
  const numbers = new Float64Array(P.POSE_LENGTH)
  const depth = chosenDepth(settings)
  const reference = referenceOfPlay(settings, depth)
  numbers[P.DEPTH] = depth
  numbers[P.DEPTH_ERROR] = q["goalie.depth_error"]
  numbers[P.OFF_LINE_ERROR] = together(q["goalie.off_line_error"], reference.offLineSpread)
  numbers[P.ANGLE_BIAS] = q["goalie.angle_bias"] + biasAbout(reference, depth)
  numbers[P.ANGLE_ERROR] = together(q["goalie.angle_error"], reference.angleSpread)
  numbers[P.TURN_ERROR] = q["goalie.turn_error"]
  numbers[P.STAND_OFF] = q["goalie.stand_off"]
  numbers[P.REACTION_MEDIAN] = q["goalie.reaction_median"]
  numbers[P.REACTION_SPREAD] = q["goalie.reaction_spread"]
  numbers[P.DROP_LEAD] = q["goalie.drop_lead"]
  numbers[P.DROP_TIME] = q["goalie.drop_time"]
  numbers[P.HIGH_PUCK] = q["goalie.high_puck"]
  numbers[P.HIGH_DROP] = q["goalie.high_drop"]
  numbers[P.BLOCK_NEVER] = q["goalie.block_never"]
  numbers[P.BLOCK_ALWAYS] = q["goalie.block_always"]
  numbers[P.BLOCK_LEAD] = q["goalie.block_lead"]
  numbers[P.ANSWER] =
    settings.choices["play.goalie"] === "none" ? P.ANSWER_ABSENT : ANSWERS[settings.choices["goalie.answer"]]!
  numbers[P.GLOVE_SIDE] = settings.choices["goalie.catches"] === "left" ? 1 : -1
  numbers[P.UNSET_PENALTY] = q["goalie.unset_penalty"]
  numbers[P.POST_TURN] = q["goalie.post_turn"]
  numbers[P.ZONE_LOW] = q["shooter.zone_low_height"]
  numbers[P.ZONE_MIDDLE] = 0.5 * q["shooter.zone_middle_width"]
  numbers[P.PEEK] = q["goalie.peek"]
  numbers[P.LOOK_NEEDED] = q["goalie.look_needed"]
  numbers[P.LEAD_KEPT] = q["goalie.lead_kept"]
  return numbers
}

/** The depth asked for, or the one its level has on this rink's crease. */
export function chosenDepth(settings: Settings): number {
  const depth = settings.quantities["goalie.depth"]
  return Number.isNaN(depth) ? creaseDepth(settings) : depth
}

/** Standard deviation of the sum of two independent errors. */
function together(own: number, added: number): number {
  return added === 0 ? own : Math.sqrt(own * own + added * added)
}
