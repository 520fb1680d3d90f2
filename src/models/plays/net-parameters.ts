import { choices, type Quantity, quantities } from "../parameter.ts"

function place(value: number, low: number, high: number, most: number, why: string): Quantity {
  return { dimension: "length", value, low, high, least: 0.2, most, unit: "m", source: "choice", why }
}
function speed(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "speed", value, low, high, least: 0.3, most: 12, unit: "m/s", source: "assumption", why }
}
function share(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "share", value, low, high, least: 0, most: 1, unit: "%", source: "assumption", why }
}

/** Plays around the net. Places count from the middle of the goal line: out from the line, and beside the middle. */
export const netQuantities = quantities({
  "play.walk_out": place(
    2.3,
    1.8,
    3,
    10,
    "Cross-crease walk: how far out from the goal line the puck is carried across.",
  ),
  "play.walk_from": place(3, 2, 4, 12, "Cross-crease walk: how far beside the middle it begins, on play.from_side."),
  "play.walk_past": {
    ...place(0.8, 0, 1.4, 6, "Cross-crease walk: how far past the middle the shot is taken."),
    least: -3,
  },
  "play.walk_speed": speed(4.5, 3.5, 6, "Cross-crease walk: speed across the top of the crease (from memory)."),

  "play.drive_from_distance": place(8, 6, 10, 30, "Net drive: distance at which the carrier turns in to the net."),
  "play.drive_from_angle": {
    dimension: "angle",
    value: 0.95,
    low: 0.7,
    high: 1.2,
    least: 0,
    most: Math.PI / 2,
    unit: "deg",
    source: "choice",
    why: "Net drive: angle from straight ahead at which the carrier turns in to the net, on play.from_side.",
  },
  "play.drive_out": place(
    2,
    1.5,
    2.5,
    6,
    "Net drive: how far out from the goal line the puck is brought to the near post.",
  ),
  "play.drive_beside": place(
    1.5,
    1.1,
    2,
    6,
    "Net drive: how far beside the middle the puck is brought to the near post.",
  ),
  "play.drive_speed": speed(6, 4.5, 7.5, "Net drive: speed from the turn to the near post (from memory)."),
  "play.drive_across_share": share(
    0.5,
    0.3,
    0.7,
    "Net drive: how often the puck is cut across the crease and not shot at once.",
  ),
  "play.drive_across": {
    ...place(0.9, 0.4, 1.4, 6, "Net drive: how far past the middle a puck that is cut across is shot."),
    least: -3,
  },
  "play.drive_cut_speed": speed(4.5, 3.5, 6, "Net drive: speed of the puck cut across the crease (from memory)."),

  "play.low_behind": {
    ...place(1.2, 0.5, 3, 4, "Low-to-high pass: how far behind the goal line the passer's puck is."),
    least: 0,
  },
  "play.low_beside": place(
    2.5,
    1.6,
    5,
    12,
    "Low-to-high pass: how far beside the middle the passer's puck is, on play.from_side.",
  ),

  "play.wrap_beside": place(
    1.6,
    1.2,
    2.5,
    6,
    "Wrap-around: how far beside the middle the puck goes behind the line and comes out again.",
  ),
  "play.wrap_behind": place(
    1.5,
    1.3,
    2,
    4,
    "Wrap-around: how far behind the goal line the puck is carried round the net.",
  ),
  "play.wrap_out": place(
    0.4,
    0.25,
    0.7,
    2,
    "Wrap-around: how far in front of the goal line the puck is shot, beside the far post.",
  ),
  "play.wrap_post": place(1.25, 1.1, 1.5, 3, "Wrap-around: how far beside the middle the puck is when it is shot."),
  "play.wrap_speed": speed(5.5, 4.5, 7, "Wrap-around: speed of the carrier behind the net (from memory)."),
  "play.wrap_shot_speed": speed(
    9,
    6,
    12,
    "Wrap-around: speed of the shot along the ice, a push of the blade (from memory).",
  ),
})

export const netChoices = choices({
  "play.from_side": {
    names: ["left", "right"],
    value: "left",
    source: "choice",
    why: "Side of the goalie from which a cross-crease walk, a net drive, a low-to-high pass or a wrap-around comes.",
  },
})
