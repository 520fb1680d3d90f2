import type { Metres, Probability, Radians } from "../../sim/units.ts"

/**
 * A way to stand, as numbers. The named stances are written for a goalie of 1.88 m and fitted to another before use.
 *
 * "Near" is the side of the post a post technique seals, "far" the other; an upright stance is the same on both.
 */
export interface Stance {
  /** Share of the standing height of the hips given up: 0 standing tall. */
  readonly crouch: Probability
  /** Between the middles of the two skates, for legs that stand. */
  readonly feetWidth: Metres
  /** Flexion of the knees, for legs that stand: 0 straight. Deeper sits further back. */
  readonly kneeBend: Radians
  /** How far the face of each pad is turned out from straight ahead. */
  readonly nearFlare: Radians
  readonly farFlare: Radians
  /** Gap between the inner edges of the pads at their tops. */
  readonly fiveHole: Metres
  /** Lean of the trunk forward, and toward the near post, from upright. */
  readonly torsoLean: Radians
  readonly sideLean: Radians
  /** How far the hips are moved toward the near post. */
  readonly hipShift: Metres
  /** Middle of each glove: above the ice, out from the side of the hip (negative: inside), ahead of the hips. */
  readonly nearHandHeight: Metres
  readonly nearHandOut: Metres
  readonly nearHandAhead: Metres
  readonly farHandHeight: Metres
  readonly farHandOut: Metres
  readonly farHandAhead: Metres
  /** 1 the catching glove is open, 0 closed. */
  readonly gloveOpening: Probability
  /** How far the stick blade is ahead of the midpoint of the skates. */
  readonly bladeLead: Metres
  /** How high the blade is off the ice. */
  readonly bladeLift: Metres
  /** How far each leg is down on the ice: 0 stands, 1 lies flat with its face forward. */
  readonly nearDown: Probability
  readonly farDown: Probability
}

/** Between two stances, number by number: `share` 0 is the first, 1 the second. */
export function blendStances(from: Stance, to: Stance, share: Probability): Stance {
  const blended: Record<string, number> = {}
  for (const key of Object.keys(from) as (keyof Stance)[]) blended[key] = (1 - share) * from[key] + share * to[key]
  return blended as unknown as Stance
}
