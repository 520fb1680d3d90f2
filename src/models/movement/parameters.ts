import { choices, type Quantity, quantities } from "../parameter.ts"
import { openingChoices, openingQuantities } from "./opening-parameters.ts"

/** No measurement of a goalie's skating was found with its numbers: what follows is from memory unless it says more. */
function time(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "time", value, low, high, least: 0, most: 2, unit: "s", source: "assumption", why }
}
function speed(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "speed", value, low, high, least: 0.1, most: 9, unit: "m/s", source: "assumption", why }
}
function acceleration(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "acceleration", value, low, high, least: 0.2, most: 60, unit: "m/s2", source: "assumption", why }
}

/** How a goalie gets from one place to another: start, gain of speed, top speed, braking and being set, by mode. */
export const movementQuantities = quantities({
  "movement.shuffle_start": time(0.06, 0.04, 0.1, "From the decision to the first push of a shuffle (from memory)."),
  "movement.shuffle_acceleration": acceleration(7, 5, 9, "Gain of speed in a shuffle (from memory)."),
  "movement.shuffle_speed": speed(1.5, 1.2, 1.8, "Top speed of a shuffle: 1.2 to 1.8 m/s from memory."),
  "movement.shuffle_braking": acceleration(7, 5, 9, "Loss of speed when a shuffle stops (from memory)."),
  "movement.shuffle_set": time(0.05, 0.02, 0.1, "From standing still after a shuffle to being set (from memory)."),

  "movement.t_push_start": time(0.1, 0.06, 0.15, "From the decision to a T-push: the lead foot turns (from memory)."),
  "movement.t_push_acceleration": acceleration(7, 5, 9, "Gain of speed in a T-push: about 7 m/s2 from memory."),
  "movement.t_push_speed": speed(3, 2.5, 3.5, "Top speed of a T-push: 2.5 to 3.5 m/s from memory."),
  "movement.t_push_braking": acceleration(7, 5, 9, "Loss of speed when a T-push stops on the edge (from memory)."),
  "movement.t_push_set": time(0.12, 0.06, 0.2, "From standing still after a T-push to being set (from memory)."),

  "movement.slide_start": time(0.12, 0.08, 0.18, "From the decision to the push of a butterfly slide (from memory)."),
  "movement.slide_acceleration": acceleration(6, 4, 8, "Gain of speed in a butterfly slide (from memory)."),
  "movement.slide_speed": speed(2, 1.5, 2.5, "Top speed of a butterfly slide: 1.5 to 2.5 m/s from memory."),
  "movement.slide_braking": acceleration(4, 2.5, 6, "Loss of speed of a slide: pads and an edge (from memory)."),
  "movement.slide_set": time(
    0.15,
    0.08,
    0.25,
    "From lying still after a slide to being square and sealed (from memory).",
  ),

  "movement.glide_start": time(0.08, 0.04, 0.15, "From the decision to moving backward (from memory)."),
  "movement.glide_acceleration": acceleration(2.5, 1.5, 4, "Gain of speed in a backward glide (from memory)."),
  "movement.glide_speed": speed(1.4, 0.8, 2, "Top speed of a backward glide: 0.8 to 2 m/s (from memory)."),
  "movement.glide_braking": acceleration(5, 3, 7, "Loss of speed when a backward glide is stopped (from memory)."),
  "movement.glide_set": time(
    0.08,
    0.03,
    0.15,
    "From standing still after a backward glide to being set (from memory).",
  ),

  "movement.telescope_start": time(0.08, 0.04, 0.15, "From the decision to moving forward (from memory)."),
  "movement.telescope_acceleration": acceleration(4, 2.5, 6, "Gain of speed in a push forward (from memory)."),
  "movement.telescope_speed": speed(1.8, 1.2, 2.5, "Top speed of a push forward: 1.2 to 2.5 m/s (from memory)."),
  "movement.telescope_braking": acceleration(5, 3, 7, "Loss of speed when a push forward is stopped (from memory)."),
  "movement.telescope_set": time(
    0.08,
    0.03,
    0.15,
    "From standing still after a push forward to being set (from memory).",
  ),

  "movement.turn_delay": time(
    0.1,
    0.06,
    0.15,
    "From the decision to the first turn of hips and shoulders (from memory).",
  ),
  "movement.quarter_turn": {
    dimension: "time",
    value: 0.262,
    low: 0.18,
    high: 0.39,
    least: 0.02,
    most: 3,
    unit: "s",
    source: "assumption",
    why: "Time to turn through a right angle on the spot once begun: 0.262 s is 6 rad/s, 4 to 9 rad/s from memory.",
  },
  "movement.shuffle_reach": {
    dimension: "length",
    value: 0.6,
    low: 0.4,
    high: 0.9,
    least: 0,
    most: 5,
    unit: "m",
    source: "assumption",
    why: "A sideways way up to this long is shuffled and a longer one is taken with a T-push (from memory).",
  },
  "movement.pass_reading": time(
    0.12,
    0.08,
    0.2,
    "Median time from a pass leaving the stick to the goalie's decision to go.",
  ),
  "movement.pass_reading_spread": {
    dimension: "number",
    value: 0.3,
    low: 0.15,
    high: 0.5,
    least: 0,
    most: 1.5,
    unit: "",
    source: "assumption",
    why: "Standard deviation of the logarithm of the time to read a pass, from pass to pass.",
  },
  "movement.follow_lag": time(
    0.1,
    0.05,
    0.18,
    "How far behind a carried puck a goalie is who follows it (from memory).",
  ),
  "movement.set_speed": speed(
    0.4,
    0.2,
    0.7,
    "A goalie who follows the puck no faster than this stays set (from memory).",
  ),
  "movement.push_spread": {
    dimension: "number",
    value: 0.1,
    low: 0.05,
    high: 0.2,
    least: 0,
    most: 1,
    unit: "",
    source: "assumption",
    why: "Standard deviation of the logarithm of how fast the same push is played, from move to move.",
  },
  ...openingQuantities,
})

export const movementChoices = choices({
  "movement.route": {
    names: ["angle first", "one path", "depth first"],
    value: "one path",
    source: "choice",
    why: "Route to a new place of the puck: get on the new line at the present depth, go straight, or change depth before going across.",
  },
  "movement.across": {
    names: ["by distance", "shuffle", "T-push", "butterfly slide"],
    value: "by distance",
    source: "choice",
    why: "How a sideways way is taken: shuffled when short and pushed when long, or always the same.",
  },
  "movement.turn": {
    names: ["beside", "first"],
    value: "beside",
    source: "choice",
    why: "Hips and shoulders turn beside the travel, or first, before the feet go.",
  },
  ...openingChoices,
})
