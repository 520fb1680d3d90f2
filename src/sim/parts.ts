import type { Probability } from "./units.ts"

export * from "./part-columns.ts"

/**
 * The body as the engine sees it: a table of rounded boxes for each phase of the drop, in the goalie's own frame.
 *
 * Goalie frame: origin on the ice midway between the skates; u forward (out toward the puck when square), v to the
 * goalie's left, z up. Right-handed, so at heading 0 it is the rink frame moved to the goalie (u = x, v = y).
 *
 * A rounded box is every point within `rounding` of the core box with centre c, unit axes a0 a1 a2 and half-sizes
 * h0 h1 h2. Two half-sizes of zero make a capsule, three a sphere, one a rounded plate.
 */

/** Regions of the body that stop pucks, as reports name them; a part's region is an index into this list. */
export const REGIONS = [
  "catching glove",
  "blocker",
  "stick",
  "left pad",
  "right pad",
  "body",
  "arms",
  "mask",
  "skates",
] as const
export type Region = (typeof REGIONS)[number]

/** Limbs that can be moved to a puck, in the order of the rows of {@link Posture.limbs}. */
export const LIMBS = ["glove hand", "blocker hand", "stick", "left leg", "right leg", "trunk"] as const
export type Limb = (typeof LIMBS)[number]
/**
 * A body as a function of one number, the drop phase p in [0, 1]: 0 the stance, 1 down in the butterfly.
 * p is elapsed drop time over drop time; knees close in proportion to p and fall in proportion to p².
 * Between the `phases` equally spaced key phases centres move on straight lines and axes turn by interpolation
 * followed by Gram-Schmidt. Structured-clone safe.
 */
export interface Posture {
  readonly phases: number
  readonly count: number
  /** [phases x count x PART_STRIDE] */
  readonly parts: Float64Array
  /** [count] index into REGIONS */
  readonly region: Uint8Array
  /** [count] index into LIMBS, or NO_LIMB */
  readonly carrier: Uint8Array
  /** [count] normal restitution of a puck that hits this part */
  readonly restitution: Float64Array
  /** [LIMBS.length x LIMB_STRIDE] */
  readonly limbs: Float64Array
  /** [phases x LIMBS.length x 3] where each limb is rooted (shoulders for hands and stick), goalie frame, m */
  readonly roots: Float64Array
  /** Half the distance between the outer edges of the skates in the stance, m: what must stay inside the post. */
  readonly halfStance: number
  /** How far ahead of the skates' midpoint the foremost covering part is, m: no puck can be played nearer than this. */
  readonly foremost: number
  /** Share of pucks that squeeze through a covering body part. */
  readonly leak: Probability
}

/** The same body as a movement leaves it at its fullest: parts and roots in the place of a posture's own. */
export type OpenBody = Pick<Posture, "parts" | "roots">
