import * as A from "../../sim/motion/across.ts"
import * as M from "../../sim/motion/mode.ts"
import type { QuantityKey, Settings } from "../settings.ts"

/** First part of a mode's keys: `movement.t_push_speed`, …, in the order of the modes. */
export const MODE_KEYS = {
  shuffle: "shuffle",
  "T-push": "t_push",
  "butterfly slide": "slide",
  "backward glide": "glide",
  telescope: "telescope",
} as const satisfies Record<M.Mode, string>

/** Last part of a mode's keys and the column it fills. */
const PARTS = {
  start: M.START,
  acceleration: M.ACCELERATION,
  speed: M.TOP_SPEED,
  braking: M.BRAKING,
  set: M.SET,
} as const

const ROUTES: Readonly<Record<string, number>> = {
  "angle first": A.ROUTE_ANGLE_FIRST,
  "one path": A.ROUTE_ONE_PATH,
  "depth first": A.ROUTE_DEPTH_FIRST,
}
const ACROSS: Readonly<Record<string, number>> = {
  "by distance": A.ACROSS_BY_DISTANCE,
  shuffle: M.SHUFFLE,
  "T-push": M.T_PUSH,
  "butterfly slide": M.BUTTERFLY_SLIDE,
}

/** Key of one number of a mode. */
export function modeKey(mode: M.Mode, part: keyof typeof PARTS): QuantityKey {
  return `movement.${MODE_KEYS[mode]}_${part}`
}

/** How the goalie of these settings moves, as the kernels of sim/motion read it. [MOVEMENT_LENGTH] */
export function movementNumbers(settings: Settings): Float64Array {
  const q = settings.quantities
  const numbers = new Float64Array(A.MOVEMENT_LENGTH)
  M.MODES.forEach((mode, index) => {
    for (const [part, column] of Object.entries(PARTS))
      numbers[index * M.MODE_STRIDE + column] = q[modeKey(mode, part as keyof typeof PARTS)]
  })
  numbers[A.TURN_DELAY] = q["movement.turn_delay"]
  numbers[A.TURN_RATE] = (0.5 * Math.PI) / q["movement.quarter_turn"]
  numbers[A.SHUFFLE_REACH] = q["movement.shuffle_reach"]
  numbers[A.ROUTE] = ROUTES[settings.choices["movement.route"]]!
  numbers[A.ACROSS] = ACROSS[settings.choices["movement.across"]]!
  numbers[A.TURNS_FIRST] = settings.choices["movement.turn"] === "first" ? 1 : 0
  numbers[A.PASS_READING] = q["movement.pass_reading"]
  numbers[A.PASS_READING_SPREAD] = q["movement.pass_reading_spread"]
  numbers[A.VIGOUR_SPREAD] = q["movement.push_spread"]
  numbers[A.OPENS] = settings.choices["movement.stance"] === "opens" ? 1 : 0
  numbers[A.OPENS_IN] = q["movement.opens_in"]
  return numbers
}
