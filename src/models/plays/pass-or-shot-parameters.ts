import { choices, quantities } from "../parameter.ts"
import { SHOT_NAMES } from "../shooter/shot-types.ts"

const CHOSEN = { source: "choice" } as const
const SHARE = { dimension: "share", least: 0, most: 1, unit: "%" } as const

/** Plays in which the carrier shoots from `play.distance` and `play.angle` or passes to a receiver. */
export const passOrShotQuantities = quantities({
  "play.receiver_distance": {
    ...CHOSEN,
    dimension: "length",
    value: 2.2,
    low: 1.5,
    high: 3.5,
    least: 0.3,
    most: 55,
    unit: "m",
    why: "Distance of the receiver's puck from the centre of the goal line, where the carrier may pass instead of shooting.",
  },
  "play.receiver_angle": {
    ...CHOSEN,
    dimension: "angle",
    value: -1,
    low: -1.3,
    high: -0.6,
    least: -1.5,
    most: 1.5,
    unit: "deg",
    why: "Angle of the receiver's puck from straight ahead of the goal, positive toward the goalie's left.",
  },
  "play.pass_share": {
    ...CHOSEN,
    ...SHARE,
    value: 0.5,
    low: 0.2,
    high: 0.8,
    why: "How often the carrier of a back-door pass or a two-on-one passes, where the carrier does not choose by the goalie.",
  },
  "play.defender_on_pass": {
    ...CHOSEN,
    ...SHARE,
    value: 0.6,
    low: 0.3,
    high: 0.9,
    why: "What the one defender takes away: 1 lies in the pass alone, 0 goes at the carrier alone.",
  },
  "play.defender_cuts_off": {
    ...SHARE,
    value: 0.7,
    low: 0.5,
    high: 0.9,
    source: "assumption",
    why: "Share of the passes cut off by a defender who lies in the pass alone; in between, in proportion.",
  },
  "play.defender_blocks": {
    ...SHARE,
    value: 0.4,
    low: 0.2,
    high: 0.6,
    source: "assumption",
    why: "Share of the carrier's shots blocked by a defender who goes at the carrier alone; in between, in proportion.",
  },
})

export const passOrShotChoices = choices({
  "play.receiver_shot": {
    names: SHOT_NAMES,
    value: "one-timer",
    source: "choice",
    why: "How the receiver shoots what the carrier passes.",
  },
})
