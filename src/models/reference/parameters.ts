import { choices, type Quantity, quantities } from "../parameter.ts"
import { RINK_NAMES } from "../rink/presets.ts"

/** What tells the goalie where the net behind the back is. */
export const CUE_NAMES = ["post", "backing in", "ice marking", "far net", "roof line", "shooter's body"] as const
export type CueName = (typeof CUE_NAMES)[number]

/** Marks of an end zone through which a goalie can remember a line. */
export const MARK_NAMES = [
  "crease mark",
  "end-zone spot",
  "inner hash marks",
  "outer hash marks",
  "circle top",
  "neutral spot",
] as const
export type MarkName = (typeof MARK_NAMES)[number]

/** The name of the cue of a goalie whose error is that of `goalie.angle_error` alone. */
export const NO_CUE = "none"
/** The name of the home rink where the goalie plays at home. */
export const THIS_RINK = "this rink"

/** A length printed in centimetres that no source gives. */
function guessed(value: number, low: number, high: number, most: number, why: string): Quantity {
  return { dimension: "length", value, low, high, least: 0, most, unit: "cm", source: "assumption", why }
}

/** A limit that the person draws, in centimetres. */
function drawn(value: number, why: string): Quantity {
  const [low, high] = [value, value]
  return { dimension: "length", value, low, high, least: 0, most: 1, unit: "cm", source: "choice", why }
}

/** How exactly each cue tells the angle: no measurement of any of them was found. */
export const referenceQuantities = quantities({
  "reference.post_error": guessed(
    0.02,
    0.01,
    0.04,
    0.5,
    "Touching the post: standard deviation of where the body is on the goal line, carried outward as it is.",
  ),
  "reference.step_out_error": {
    dimension: "angle",
    value: 0.035,
    low: 0.017,
    high: 0.07,
    least: 0,
    most: 0.5,
    unit: "deg",
    source: "assumption",
    why: "Touching the post: standard deviation of the direction stepped out in; it grows with the way to the depth.",
  },
  "reference.back_in_from": {
    dimension: "length",
    value: 4,
    low: 3.3,
    high: 4.8,
    least: 0,
    most: 15,
    unit: "m",
    source: "assumption",
    why: "Backing in: depth it starts from, on the line; coaches say 1.5 m to 3 m beyond the crease.",
  },
  "reference.back_in_error": {
    dimension: "share",
    value: 0.05,
    low: 0.02,
    high: 0.1,
    least: 0,
    most: 1,
    unit: "%",
    source: "assumption",
    why: "Backing in: standard deviation of the drift to the side, as a share of the way backed.",
  },
  "reference.paint_error": guessed(
    0.02,
    0.01,
    0.05,
    1,
    "Ice marking: standard deviation of where a mark was painted against where the book wants it, square to its line.",
  ),
  "reference.far_net_error": guessed(
    0.1,
    0.05,
    0.2,
    2,
    "Far net: standard deviation of the middle of the ice told by it; a tenth of a degree between it and the centre spot.",
  ),
  "reference.roof_error": guessed(
    0.05,
    0.02,
    0.3,
    5,
    "Roof line: standard deviation of the middle of a building called symmetric against the middle of its ice.",
  ),
  "reference.roof_shift": {
    dimension: "length",
    value: 0,
    low: 0,
    high: 0,
    least: -10,
    most: 10,
    unit: "m",
    source: "choice",
    why: "Roof line: how far it runs beside the middle of the ice, positive toward the goalie's left; 0 when symmetric.",
  },
  "reference.turn_misjudged": {
    dimension: "share",
    value: 0.08,
    low: 0.04,
    high: 0.15,
    least: 0,
    most: 1,
    unit: "%",
    source: "assumption",
    why: "Far net and roof line: standard deviation of the turn away from straight ahead, as a share of that turn.",
  },
  "reference.trust_within": drawn(
    0.05,
    "A cue is trusted up to this far off the line, bias and spread together; a painted line is as wide.",
  ),
  "reference.distrust_beyond": drawn(
    0.1,
    "A cue is distrusted beyond this far off the line, bias and spread together; between the two it wants a check.",
  ),
})

export const referenceChoices = choices({
  "reference.cue": {
    names: [NO_CUE, ...CUE_NAMES],
    value: NO_CUE,
    source: "choice",
    why: "What tells the goalie the angle; its bias and spread come on top of goalie.angle_bias and goalie.angle_error.",
  },
  "reference.mark": {
    names: MARK_NAMES,
    value: "end-zone spot",
    source: "choice",
    why: "Ice marking: the mark through which the goalie remembers a line to the middle of the net.",
  },
  "reference.home": {
    names: [THIS_RINK, ...RINK_NAMES],
    value: THIS_RINK,
    source: "choice",
    why: "Ice marking: the sheet on which the goalie learned where the marks are.",
  },
})
