import { type Quantity, quantities } from "../parameter.ts"

const DEGREE = Math.PI / 180

function holds(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "share", value, low, high, least: 0, most: 1, unit: "%", source: "assumption", why }
}

/** What the goalie makes of a puck once it is stopped: holds it, lets it bounce, covers it, gets up again. */
export const reboundControlQuantities = quantities({
  "goalie.holds_in_glove": holds(0.8, 0.65, 0.92, "Share of saves with the catching glove that are held."),
  "goalie.holds_at_body": holds(0.5, 0.3, 0.7, "Share of saves with chest and pants that are smothered."),
  "goalie.holds_in_arms": holds(0.15, 0.05, 0.3, "Share of saves with the arms that are trapped against the body."),
  "goalie.holds_at_pads": holds(0.05, 0, 0.12, "Share of saves with the leg pads that stay on the pad or under it."),
  "goalie.holds_at_blocker": holds(0.02, 0, 0.1, "Share of saves with the blocker that are trapped."),
  "goalie.holds_elsewhere": holds(0, 0, 0.05, "Share of saves with stick, mask and skates that are held."),
  "goalie.gear_friction": {
    dimension: "number",
    value: 0.35,
    low: 0.2,
    high: 0.5,
    least: 0,
    most: 2,
    unit: "",
    source: "assumption",
    why: "Friction of a puck that glances off the gear.",
  },
  "goalie.rebound_scatter": {
    dimension: "angle",
    value: 12 * DEGREE,
    low: 6 * DEGREE,
    high: 20 * DEGREE,
    least: 0,
    most: 60 * DEGREE,
    unit: "deg",
    source: "assumption",
    why: "How far the surface a puck meets is off its modelled slope, standard deviation each way: gear is soft and ribbed, pucks meet it edge on.",
  },
  "goalie.covers_within": {
    dimension: "length",
    value: 0.9,
    low: 0.7,
    high: 1.1,
    least: 0,
    most: 3,
    unit: "m",
    source: "assumption",
    why: "A loose puck within this of the spot between the skates can be covered.",
  },
  "goalie.covers_after": {
    dimension: "time",
    value: 0.5,
    low: 0.35,
    high: 0.7,
    least: 0,
    most: 5,
    unit: "ms",
    source: "assumption",
    why: "Median time from the save to a glove on a loose puck in reach.",
  },
  "goalie.covers_spread": {
    dimension: "number",
    value: 0.35,
    low: 0.2,
    high: 0.5,
    least: 0,
    most: 1,
    unit: "",
    source: "assumption",
    why: "Standard deviation of the logarithm of that time.",
  },
  "goalie.recovery_time": {
    dimension: "time",
    value: 0.9,
    low: 0.7,
    high: 1.2,
    least: 0,
    most: 5,
    unit: "ms",
    source: "assumption",
    why: "From a save on the knees until the goalie stands set again; until then the goalie slides and blocks from the knees.",
  },
})
