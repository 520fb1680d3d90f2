import { choices, type Quantity, quantities } from "../parameter.ts"

const DEGREE = Math.PI / 180

type Row = readonly [value: number, low: number, high: number, most: number, why: string]

function assumed(dimension: Quantity["dimension"], unit: string, [value, low, high, most, why]: Row): Quantity {
  return { dimension, value, low, high, least: 0, most, unit, source: "assumption", why }
}
function count(value: number, why: string): Quantity {
  return { dimension: "number", value, low: value, high: value, least: 0, most: 4, unit: "", source: "choice", why }
}

/** Who is about when a save leaves the puck loose, and the second shot. */
export const reboundQuantities = quantities({
  "play.rebound_attackers": count(2, "Attackers near enough to go for a loose puck, a whole number."),
  "play.rebound_defenders": count(2, "Defenders near enough to go for a loose puck, a whole number."),
  "play.rebound_nearest": assumed("length", "m", [
    1.5,
    1,
    2,
    20,
    "Players stand no nearer than this to the middle of the goal line when the save is made.",
  ]),
  "play.rebound_furthest": assumed("length", "m", [
    6,
    5,
    8,
    30,
    "Players who go for a loose puck stand no farther out than this.",
  ]),
  "play.rebound_half_angle": assumed("angle", "deg", [
    65 * DEGREE,
    50 * DEGREE,
    80 * DEGREE,
    90 * DEGREE,
    "Players stand evenly over the ice within this to either side of straight ahead.",
  ]),
  "play.rebound_reads": assumed("time", "ms", [
    0.35,
    0.25,
    0.5,
    3,
    "Median time from the save to a player's first stride toward the loose puck.",
  ]),
  "play.rebound_reads_spread": assumed("number", "", [
    0.3,
    0.2,
    0.4,
    1,
    "Standard deviation of the logarithm of that time.",
  ]),
  "play.rebound_stride": {
    ...assumed("acceleration", "m/s2", [4, 3, 5, 20, "Gain of speed of a player toward a loose puck (from memory)."]),
    least: 0.2,
  },
  "play.rebound_speed": {
    ...assumed("speed", "m/s", [
      5,
      4,
      6,
      12,
      "Top speed of a player over the few metres to a loose puck (from memory).",
    ]),
    least: 0.2,
  },
  "play.rebound_stick": assumed("length", "m", [1.5, 1.2, 1.8, 3, "How far from the body a stick plays a loose puck."]),
  "play.rebound_shoots": {
    ...assumed("time", "ms", [0.2, 0.12, 0.35, 3, "Median time from reaching a loose puck to the second shot."]),
    least: 0.001,
  },
  "play.rebound_shoots_spread": assumed("number", "", [
    0.4,
    0.3,
    0.6,
    1,
    "Standard deviation of the logarithm of that time.",
  ]),
  "play.rebound_sees": assumed("share", "%", [
    0.5,
    0.3,
    0.7,
    1,
    "Share of second shots that go for the wider opening beside the goalie; the others go at the net.",
  ]),
  "play.rebound_pace": assumed("share", "%", [
    0.75,
    0.6,
    0.9,
    2,
    "Speed of a second shot as a share of the usual one from its distance: there is no time to load the stick.",
  ]),
  "play.rebound_lasts": {
    dimension: "time",
    value: 4,
    low: 4,
    high: 4,
    least: 0.1,
    most: 8,
    unit: "s",
    source: "choice",
    why: "A puck that nobody has reached this long after the save is no rebound any more.",
  },
  "play.rebound_within": {
    dimension: "length",
    value: 10,
    low: 10,
    high: 10,
    least: 1,
    most: 40,
    unit: "m",
    source: "choice",
    why: "A loose puck farther out than this is no rebound any more.",
  },
})

export const reboundChoices = choices({
  "play.rebounds": {
    names: ["none", "played"],
    value: "none",
    source: "choice",
    why: "Whether a save that leaves the puck loose is played on: the puck bounces, goalie and players race for it, and an attacker who is first shoots again.",
  },
})
