import { choices, type Quantity, quantities } from "../parameter.ts"
import { FRAME_NAMES } from "./frames.ts"

/** A measure of the goal that a person may take: as the frame has it unless given. */
function measured(least: number, most: number, unit: string, why: string): Quantity {
  return {
    dimension: "length",
    value: Number.NaN,
    low: Number.NaN,
    high: Number.NaN,
    least,
    most,
    unit,
    source: "choice",
    why: `${why}; as goal.frame has it unless given.`,
  }
}

/** The goal's opening and its iron. */
export const goalQuantities = quantities({
  "goal.mouth_width": measured(0.3, 4, "m", "Opening between the insides of the posts"),
  "goal.mouth_height": measured(0.3, 3, "m", "Opening from the ice to the underside of the bar"),
  "goal.post_diameter": measured(0, 0.2, "mm", "Outside diameter of posts and crossbar"),
  "goal.iron_restitution": {
    dimension: "number",
    value: 0.5,
    low: 0.35,
    high: 0.6,
    least: 0,
    most: 1,
    unit: "",
    source: "assumption",
    why: "Speed a puck keeps square to the post it hits; 0.5 from memory, the range is assumed.",
  },
  "goal.iron_friction": {
    dimension: "number",
    value: 0.2,
    low: 0.1,
    high: 0.4,
    least: 0,
    most: 2,
    unit: "",
    source: "assumption",
    why: "Friction of frozen rubber on painted steel, for the speed a puck keeps along the post.",
  },
})

export const goalChoices = choices({
  "goal.frame": {
    names: FRAME_NAMES,
    value: "north-american",
    source: "choice",
    why: "Goal of a rule book: its opening and the diameter of its iron.",
  },
})
