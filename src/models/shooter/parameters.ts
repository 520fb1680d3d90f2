import { choices } from "../parameter.ts"
import { accuracyQuantities } from "./accuracy-parameters.ts"
import { aimQuantities } from "./aim-parameters.ts"
import { LEVEL_NAMES } from "./levels.ts"
import { SHOT_NAMES } from "./shot-types.ts"
import { speedQuantities } from "./speed-parameters.ts"

export const shooterQuantities = { ...speedQuantities, ...accuracyQuantities, ...aimQuantities } as const

export const shooterChoices = choices({
  "shooter.shot": {
    names: SHOT_NAMES,
    value: "by distance",
    source: "choice",
    why: "Type of shot; by distance is the usual mix for how far out it is taken.",
  },
  "shooter.level": {
    names: LEVEL_NAMES,
    value: "professional",
    source: "choice",
    why: "Level of the shooter: speed, aim error and early read.",
  },
  "shooter.aim": {
    names: ["reads", "zones", "corners", "point"],
    value: "reads",
    source: "choice",
    why: "How the shooter picks the target: the best opening seen, zones by weight, four corners, or one point.",
  },
  "shooter.hand": {
    names: ["left", "right"],
    value: "left",
    source: "choice",
    why: "Side of the blade: the puck is on this side of the shooter's body, on the other for a backhand.",
  },
  "shooter.reads_from": {
    names: ["puck", "eyes"],
    value: "puck",
    source: "choice",
    why: "Where the openings are judged from: what the puck sees, or what the shooter's eyes see.",
  },
  "shooter.puck": {
    names: ["by shot", "settled", "moving", "bouncing"],
    value: "by shot",
    source: "choice",
    why: "What the puck does when it is shot; by shot it moves for one-timers and tips and is settled otherwise.",
  },
})
