import { choices, type Quantity, quantities } from "../parameter.ts"
import { RINK_NAMES } from "./presets.ts"

/** A mark that a person may measure: as the preset has it unless given. */
function measured(least: number, most: number, why: string): Quantity {
  return {
    dimension: "length",
    value: Number.NaN,
    low: Number.NaN,
    high: Number.NaN,
    least,
    most,
    unit: "m",
    source: "choice",
    why: `${why}; as rink.preset has it unless given.`,
  }
}

/** A depth level as a share of the way to the crease outline. */
function level(value: number, low: number, high: number, why: string): Quantity {
  return { dimension: "number", value, low, high, least: 0, most: 4, unit: "", source: "assumption", why }
}

/** The sheet, its air, and what the trade's depth levels mean on it. */
export const rinkQuantities = quantities({
  "rink.temperature": {
    dimension: "temperature",
    value: 278.15,
    low: 273.15,
    high: 288.15,
    least: 243.15,
    most: 313.15,
    unit: "°C",
    source: "assumption",
    why: "Air over the ice: 5 °C gives 1.27 kg/m³ at sea level.",
  },
  "rink.altitude": {
    dimension: "length",
    value: 0,
    low: 0,
    high: 1600,
    least: -430,
    most: 5000,
    unit: "m",
    source: "choice",
    why: "Height of the rink above the sea: thinner air slows the puck less.",
  },
  "rink.gravity": {
    dimension: "acceleration",
    value: 9.81,
    low: 9.78,
    high: 9.83,
    least: 0,
    most: 20,
    unit: "m/s2",
    source: "assumption",
    why: "Acceleration of gravity; from memory 9.78 at the equator and 9.83 at the poles.",
  },
  "rink.width": measured(15, 40, "Width of the sheet between the boards"),
  "rink.goal_line_to_boards": measured(1, 8, "End boards to the middle of the goal line"),
  "rink.blue_line": measured(8, 25, "Goal line to the middle of the blue line"),
  "rink.end_spot_out": measured(2, 12, "End-zone spot, out from the goal line"),
  "rink.end_spot_side": measured(2, 12, "End-zone spot, sideways from the middle"),
  "rink.neutral_spot_out": measured(10, 30, "Nearer neutral spot, out from the goal line"),
  "rink.neutral_spot_side": measured(2, 12, "Nearer neutral spot, sideways from the middle"),
  "rink.circle_radius": measured(2, 6, "End-zone circle to its outer edge"),
  "rink.crease_radius": measured(0.8, 3, "Middle of the goal line to the front of the crease, outer edge"),
  "rink.crease_half_width": measured(0.6, 3, "Middle of the crease to its side line, outer edge"),
  "rink.crease_mark_out": measured(0.3, 2.5, "Goal line to the crease's corner mark"),
  "rink.depth_defensive": level(0.25, 0.1, 0.4, "Defensive depth, as a share of the way to the crease outline."),
  "rink.depth_conservative": level(0.6, 0.45, 0.8, "Conservative depth, as a share of the way to the crease outline."),
  "rink.depth_aggressive": level(1.35, 1.15, 1.7, "Aggressive depth, as a multiple of the way to the crease outline."),
})

export const rinkChoices = choices({
  "rink.preset": {
    names: RINK_NAMES,
    value: "north-american",
    source: "choice",
    why: "Sheet of a rule book: where the lines, spots and circles are and what shape the crease has.",
  },
})
