import type { QuantityKey, Settings } from "../../models/settings.ts"

/** A quantity of the goalie that practice changes, and what better means. */
export interface Trainable {
  readonly key: QuantityKey
  /** What a coach calls it, read after "worth most is". */
  readonly name: string
  /** Whether less of it or more of it is better. */
  readonly better: "less" | "more"
  /** Why it counts as trained, and by what. */
  readonly reason: string
  /** It counts only where the goalie has to move before the shot. */
  readonly moving?: true
}

/**
 * What a goalie can train, as opposed to what size, gear and the code fix. That training changes these is the trade's
 * view and common sense; by how much no source says, so ranges are those between goalies.
 */
export const TRAINABLE: readonly Trainable[] = [
  {
    key: "goalie.reaction_median",
    name: "reaction",
    better: "less",
    reason: "Reading the release and choosing sooner",
  },
  {
    key: "goalie.reaction_spread",
    name: "evenness of reaction",
    better: "less",
    reason: "Attention: the same reaction on every shot",
  },
  {
    key: "goalie.drop_lead",
    name: "early read of the shot",
    better: "more",
    reason: "Reading the load of the stick: that a shot is coming",
  },
  { key: "goalie.drop_time", name: "drop", better: "less", reason: "Driving the knees down instead of falling" },
  {
    key: "goalie.arm_speed",
    name: "top speed of the hands",
    better: "more",
    reason: "Quick hands: glove and blocker drills",
  },
  {
    key: "goalie.arm_acceleration",
    name: "quick start of the hands",
    better: "more",
    reason: "Quick hands: a sharp start from ready",
  },
  { key: "goalie.stick_speed", name: "top speed of the stick", better: "more", reason: "Stick work along the ice" },
  {
    key: "goalie.stick_acceleration",
    name: "quick start of the stick",
    better: "more",
    reason: "Stick work: a sharp start",
  },
  {
    key: "goalie.kick_speed",
    name: "top speed of the legs",
    better: "more",
    reason: "Leg strength and the hips' mobility",
  },
  {
    key: "goalie.kick_acceleration",
    name: "quick start of the legs",
    better: "more",
    reason: "Leg strength: a sharp start",
  },
  {
    key: "goalie.hand_error",
    name: "placing the hands",
    better: "less",
    reason: "Catching: bringing the limb to where the puck is",
  },
  {
    key: "goalie.hand_error_time",
    name: "placing hurried hands",
    better: "less",
    reason: "Catching: staying exact when it has to be fast",
  },
  {
    key: "goalie.depth_error",
    name: "exact depth",
    better: "less",
    reason: "Position: taking the depth that was meant",
  },
  {
    key: "goalie.off_line_error",
    name: "being on line",
    better: "less",
    reason: "Position: being on the line from puck to net",
  },
  {
    key: "goalie.angle_error",
    name: "exact angle",
    better: "less",
    reason: "Position: taking the angle that was meant",
  },
  { key: "goalie.turn_error", name: "being square", better: "less", reason: "Position: being square to the puck" },
  {
    key: "goalie.unset_reach",
    name: "reach on the move",
    better: "more",
    moving: true,
    reason: "Saving on the move: balance and core",
  },
  {
    key: "movement.t_push_start",
    name: "quick turn into the push",
    better: "less",
    moving: true,
    reason: "Skating: turning the lead foot at once",
  },
  {
    key: "movement.t_push_acceleration",
    name: "strength of the push",
    better: "more",
    moving: true,
    reason: "Skating: a strong first push",
  },
  {
    key: "movement.t_push_speed",
    name: "speed across the crease",
    better: "more",
    moving: true,
    reason: "Skating: speed across the crease",
  },
  {
    key: "movement.t_push_set",
    name: "stopping set",
    better: "less",
    moving: true,
    reason: "Skating: stopping on the edge and being set",
  },
]

/** What can be trained that may count in these circumstances. */
export function trainableFor(settings: Settings): Trainable[] {
  const still = settings.choices["play.kind"] === "straight shot"
  return TRAINABLE.filter(({ moving }) => moving !== true || !still)
}

/** How a key is trained, or undefined for one that is not. */
export function trainableOf(key: string): Trainable | undefined {
  return TRAINABLE.find((one) => one.key === key)
}
