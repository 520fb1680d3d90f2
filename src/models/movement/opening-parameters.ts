import { choices, type Quantity, quantities } from "../parameter.ts"

const DEGREES = Math.PI / 180

/** No measurement of a goalie's posture on the way was found: what follows is from memory, with wide ranges. */
function apart(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "length", value, low, high, least: 0, most: 0.5, unit: "cm", source: "assumption", why }
}
function out(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "length", value, low, high, least: -0.3, most: 0.4, unit: "cm", source: "assumption", why }
}
function lean(low: number, value: number, high: number, why: string): Quantity {
  const [least, most] = [-30 * DEGREES, 45 * DEGREES]
  return {
    dimension: "angle",
    value: value * DEGREES,
    low: low * DEGREES,
    high: high * DEGREES,
    least,
    most,
    unit: "deg",
    source: "assumption",
    why,
  }
}

/**
 * What each way of moving opens at its fullest, beside the set stance; of a butterfly slide, beside the butterfly as
 * well. The coaching material read says that moving opens holes and gives no size. Whether the gloves come out or in is not
 * known, so that they stay where they are and the range goes both ways.
 */
export const openingQuantities = quantities({
  "movement.opens_in": {
    dimension: "time",
    value: 0.12,
    low: 0.06,
    high: 0.2,
    least: 0,
    most: 2,
    unit: "s",
    source: "assumption",
    why: "From the first movement until legs, arms and stick are as far from the set stance as the movement takes them (from memory).",
  },
  "movement.left_when_down": {
    dimension: "share",
    value: 0.4,
    low: 0,
    high: 0.8,
    least: 0,
    most: 1,
    unit: "%",
    source: "assumption",
    why: "Share of what a movement on the feet has opened that is still open when a drop out of it ends: the legs that were apart land apart.",
  },

  "movement.shuffle_legs": apart(0.05, 0.02, 0.1, "How much wider the five-hole and the feet are in a shuffle."),
  "movement.shuffle_hands": out(0, -0.03, 0.05, "How much further out the gloves are in a shuffle."),
  "movement.shuffle_blade": apart(0.005, 0, 0.02, "How high the stick blade leaves the ice in a shuffle."),
  "movement.shuffle_lean": lean(0, 2, 6, "How much further forward the trunk leans in a shuffle."),

  "movement.t_push_legs": apart(0.14, 0.06, 0.25, "How much wider the five-hole and the feet are in a T-push."),
  "movement.t_push_hands": out(
    0,
    -0.08,
    0.08,
    "How much further out the gloves are in a T-push, in where negative: arms swing either way.",
  ),
  "movement.t_push_blade": apart(0.03, 0, 0.08, "How high the stick blade leaves the ice in a T-push."),
  "movement.t_push_lean": lean(0, 5, 12, "How much further forward the trunk leans in a T-push."),

  "movement.slide_legs": apart(
    0.06,
    0.02,
    0.14,
    "How much wider the gap between the knees is in a butterfly slide than in a sealed butterfly: the pushing leg trails.",
  ),
  "movement.slide_hands": out(0, -0.06, 0.08, "How much further out the gloves are in a butterfly slide."),
  "movement.slide_blade": apart(0.015, 0, 0.05, "How high the stick blade leaves the ice in a butterfly slide."),
  "movement.slide_lean": lean(0, 6, 14, "How much further forward the trunk leans in a butterfly slide."),

  "movement.glide_legs": apart(0.04, 0, 0.08, "How much wider the five-hole and the feet are in backward C-cuts."),
  "movement.glide_hands": out(0, -0.04, 0.04, "How much further out the gloves are while backing."),
  "movement.glide_blade": apart(0.005, 0, 0.02, "How high the stick blade leaves the ice while backing."),
  "movement.glide_lean": lean(-6, -2, 2, "How much further forward the trunk leans while backing; negative: less."),

  "movement.telescope_legs": apart(0.05, 0.02, 0.1, "How much wider the five-hole and the feet are in a push forward."),
  "movement.telescope_hands": out(0, -0.04, 0.05, "How much further out the gloves are in a push forward."),
  "movement.telescope_blade": apart(0.01, 0, 0.04, "How high the stick blade leaves the ice in a push forward."),
  "movement.telescope_lean": lean(0, 4, 10, "How much further forward the trunk leans in a push forward."),

  "movement.turn_legs": apart(0.04, 0, 0.1, "How much wider the five-hole and the feet are in a turn on the spot."),
  "movement.turn_hands": out(0, -0.05, 0.06, "How much further out the gloves are in a turn on the spot."),
  "movement.turn_blade": apart(0.02, 0, 0.06, "How high the stick blade leaves the ice in a turn on the spot."),
  "movement.turn_lean": lean(-4, 0, 4, "How much further forward the trunk leans in a turn on the spot."),
})

export const openingChoices = choices({
  "movement.stance": {
    names: ["opens", "stays set"],
    value: "opens",
    source: "choice",
    why: "The body of a goalie who is not set at the release: as the movement leaves it, a slide being played on the knees; or as if set, only slower.",
  },
})
