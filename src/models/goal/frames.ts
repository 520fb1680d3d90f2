import type { Metres } from "../../sim/units.ts"

/** A goal's opening and iron, metres. */
export interface GoalFrame {
  /** Between the insides of the posts. */
  readonly width: Metres
  /** From the ice to the underside of the bar. */
  readonly height: Metres
  readonly postDiameter: Metres
  readonly barDiameter: Metres
}

/** A frame of a rule book with its source keys. */
export interface FramePreset extends GoalFrame {
  readonly sources: Readonly<Record<"opening" | "iron", string>>
  readonly why: string
}

/** Frames by name, for `goal.frame`. */
export const GOAL_FRAMES = {
  "north-american": {
    width: 1.8288,
    height: 1.2192,
    postDiameter: 0.0603,
    barDiameter: 0.0603,
    sources: { opening: "GoalECHL2021", iron: "GoalECHL2021" },
    why: "6 by 4 ft between posts and under the bar of 2 3/8-inch pipe.",
  },
  international: {
    width: 1.83,
    height: 1.22,
    postDiameter: 0.05,
    barDiameter: 0.05,
    sources: { opening: "GoalIIHF2023", iron: "GoalRule130" },
    why: "1.83 by 1.22 m; 50 mm posts and bar as an older numbering of the rule is quoted.",
  },
  youth: {
    width: 1.3716,
    height: 0.9144,
    postDiameter: 0.0483,
    barDiameter: 0.0483,
    sources: { opening: "assumption", iron: "assumption" },
    why: "4.5 by 3 ft for small children, from memory; pipe of 1.9 inches assumed.",
  },
} as const satisfies Record<string, FramePreset>

export type FrameName = keyof typeof GOAL_FRAMES
export const FRAME_NAMES = Object.keys(GOAL_FRAMES) as readonly FrameName[]
