import type { Settings } from "../settings.ts"
import { type FrameName, GOAL_FRAMES, type GoalFrame } from "./frames.ts"

/** The goal of the settings: `goal.frame` with the measures that were given. */
export function chosenFrame(settings: Settings): GoalFrame {
  const frame = GOAL_FRAMES[settings.choices["goal.frame"] as FrameName]
  const q = settings.quantities
  const pick = (given: number, printed: number) => (Number.isNaN(given) ? printed : given)
  return {
    width: pick(q["goal.mouth_width"], frame.width),
    height: pick(q["goal.mouth_height"], frame.height),
    postDiameter: pick(q["goal.post_diameter"], frame.postDiameter),
    barDiameter: pick(q["goal.post_diameter"], frame.barDiameter),
  }
}
