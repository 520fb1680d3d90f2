import { choices, quantities } from "../parameter.ts"

/** Where the puck leaves the stick, polar from the centre of the goal line. */
export const playsQuantities = quantities({
  "play.distance": {
    dimension: "length",
    value: 8,
    low: 5,
    high: 18,
    least: 1,
    most: 55,
    unit: "m",
    source: "choice",
    why: "Distance of the puck from the centre of the goal line at release.",
  },
  "play.angle": {
    dimension: "angle",
    value: 0,
    low: -Math.PI / 4,
    high: Math.PI / 4,
    least: -Math.PI / 2,
    most: Math.PI / 2,
    unit: "deg",
    source: "choice",
    why: "Angle of the puck from straight ahead of the goal, positive toward the goalie's left.",
  },
})

export const playsChoices = choices({
  "play.kind": {
    names: ["straight shot"],
    value: "straight shot",
    source: "choice",
    why: "What happens before the puck leaves the stick; a straight shot has a goalie in place and one shooter.",
  },
  "play.goalie": {
    names: ["present", "none"],
    value: "present",
    source: "choice",
    why: "Whether anyone guards the net; an empty net shows how many shots miss it by themselves.",
  },
})
