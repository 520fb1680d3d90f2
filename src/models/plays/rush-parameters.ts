import { choices, quantities } from "../parameter.ts"

/** A puck carried toward the net: from where, how fast. Where the carry ends is the play's own. */
export const rushQuantities = quantities({
  "play.carry_from_distance": {
    dimension: "length",
    value: 26,
    low: 20,
    high: 30,
    least: 1,
    most: 55,
    unit: "m",
    source: "choice",
    why: "Rush and late pass: distance of the carrier's puck from the centre of the goal line when the play starts.",
  },
  "play.carry_from_angle": {
    dimension: "angle",
    value: 0,
    low: -0.4,
    high: 0.4,
    least: -Math.PI / 2,
    most: Math.PI / 2,
    unit: "deg",
    source: "choice",
    why: "Rush and late pass in the lane spot: angle of the carrier's puck from straight ahead of the goal when the play starts.",
  },
  "play.carry_speed": {
    dimension: "speed",
    value: 7.5,
    low: 6,
    high: 9,
    least: 0.2,
    most: 13,
    unit: "m/s",
    source: "assumption",
    why: "Mean speed at which the puck is carried in on a rush; a professional at speed with the puck (from memory).",
  },
  "play.carry_speed_spread": {
    dimension: "share",
    value: 0.1,
    low: 0.05,
    high: 0.2,
    least: 0,
    most: 0.5,
    unit: "%",
    source: "assumption",
    why: "Standard deviation of the carrying speed from rush to rush, as a share of it.",
  },
})

export const rushChoices = choices({
  "play.lane": {
    names: ["straight", "left wing", "middle", "right wing", "spot"],
    value: "straight",
    source: "choice",
    why: "Where a rush starts: straight up the ice from where it ends, midway between dots and boards on the attackers' left or right wing, in the middle, or at play.carry_from_angle.",
  },
})
