import { type Quantity, quantities } from "../parameter.ts"

const DEGREE = Math.PI / 180

function chosen(value: number, least: number, most: number, why: string): Quantity {
  return { dimension: "length", value, low: value, high: value, least, most, unit: "m", source: "choice", why }
}
function length(value: number, low: number, high: number, most: number, why: string): Quantity {
  return { dimension: "length", value, low, high, least: 0, most, unit: "m", source: "assumption", why }
}
function share(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "share", value, low, high, least: 0, most: 1, unit: "%", source: "assumption", why }
}

/** Who stands between puck and goalie in a screened shot, and what a stick there does to it. */
export const screenedShotQuantities = quantities({
  "play.screen_distance": chosen(
    2.2,
    0.3,
    30,
    "How far out from the middle of the goal line the screening body stands, along the line to the puck.",
  ),
  "play.screen_offset": chosen(
    0,
    -5,
    5,
    "How far off the line to the puck the screening body stands, positive toward the goalie's left.",
  ),
  "play.screen_width": length(0.55, 0.45, 0.7, 60, "Width of a screening body in its gear; 0 takes it away."),
  "play.screen_height": length(1.85, 1.7, 1.95, 3, "Height of a screening body on skates; 0 takes it away."),
  "play.screen_thickness": length(0.35, 0.25, 0.5, 2, "Depth of a screening body from front to back."),
  "play.screen_legs": length(0.8, 0.7, 0.9, 3, "Height up to which a screening body is two legs with a gap between."),
  "play.screen_gap": length(0.2, 0.05, 0.35, 60, "Gap between the legs of a screening body."),
  "play.screen_stops": share(
    0.6,
    0.3,
    0.9,
    "Of the pucks whose way leads through a body, the share it stops; from the others it gets out of the way.",
  ),
  "play.screen_strays": length(
    0.25,
    0.1,
    0.4,
    5,
    "Standard deviation, from shot to shot, of how far a screening body stands off its place: shooter and body both move.",
  ),
  "play.second_screen_width": chosen(0, 0, 60, "Width of a second body, a defender as a rule; 0 means there is none."),
  "play.second_screen_distance": chosen(
    4,
    0.3,
    30,
    "How far out from the middle of the goal line the second body stands, along the line to the puck.",
  ),
  "play.second_screen_offset": chosen(
    0.4,
    -5,
    5,
    "How far off the line to the puck the second body stands, positive toward the goalie's left.",
  ),
  "play.tip_share": {
    dimension: "share",
    value: 0,
    low: 0,
    high: 0,
    least: 0,
    most: 1,
    unit: "%",
    source: "choice",
    why: "Of the pucks that pass within reach of the stick in front, the share it touches; 0 has no stick there.",
  },
  "play.tip_distance": chosen(2.6, 0.3, 20, "How far out from the middle of the goal line shots are tipped."),
  "play.tip_reach": length(1, 0.7, 1.3, 3, "How far to either side of the line to the puck the stick reaches."),
  "play.tip_height": length(0.9, 0.6, 1.2, 1.2, "Pucks up to this height can be tipped; none over the crossbar may."),
  "play.tip_across": {
    dimension: "angle",
    value: 8 * DEGREE,
    low: 4 * DEGREE,
    high: 14 * DEGREE,
    least: 0,
    most: 90 * DEGREE,
    unit: "deg",
    source: "assumption",
    why: "Standard deviation of the angle by which a tip turns the puck aside.",
  },
  "play.tip_up": {
    dimension: "angle",
    value: 5 * DEGREE,
    low: 2 * DEGREE,
    high: 9 * DEGREE,
    least: 0,
    most: 60 * DEGREE,
    unit: "deg",
    source: "assumption",
    why: "Standard deviation of the angle by which a tip turns the puck up or down.",
  },
  "play.tip_keeps": share(0.8, 0.65, 0.9, "Share of its speed that a tipped puck keeps."),
  "play.tip_keeps_spread": share(0.1, 0.05, 0.15, "Standard deviation of that share from tip to tip."),
})
