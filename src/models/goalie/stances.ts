import type { Stance } from "./stance.ts"

const DEGREES = Math.PI / 180

/**
 * Ready to move: knees bent and in, pads turned a little out, gloves outside the hips and ahead, the stick blade in front
 * of the hole. The numbers of all named stances are assumptions, chosen so that the figure drawn looks like a goalie; feet a
 * little over shoulder width and a stick 0.20 to 0.30 m ahead agree with coaching manuals.
 */
const SET: Stance = {
  crouch: 0.29,
  feetWidth: 0.8,
  kneeBend: 80 * DEGREES,
  nearFlare: 8 * DEGREES,
  farFlare: 8 * DEGREES,
  fiveHole: 0.13,
  torsoLean: 33 * DEGREES,
  sideLean: 0,
  hipShift: 0,
  nearHandHeight: 0.74,
  nearHandOut: 0.2,
  nearHandAhead: 0.5,
  farHandHeight: 0.74,
  farHandOut: 0.2,
  farHandAhead: 0.5,
  gloveOpening: 1,
  bladeLead: 0.3,
  bladeLift: 0,
  nearDown: 0,
  farDown: 0,
}

/** Taller and easier: weight up, as between plays. */
const UPRIGHT: Stance = {
  ...SET,
  crouch: 0.16,
  feetWidth: 0.62,
  kneeBend: 55 * DEGREES,
  torsoLean: 22 * DEGREES,
  fiveHole: 0.1,
  nearHandHeight: 0.84,
  farHandHeight: 0.84,
}

/** Feet under the hips: quick to push, with less of the ice covered. */
const NARROW: Stance = { ...SET, crouch: 0.25, feetWidth: 0.58, kneeBend: 72 * DEGREES, fiveHole: 0.08 }

/** Both pads flat on the ice, chest up, gloves beside. What every drop ends in. */
const BUTTERFLY: Stance = {
  ...SET,
  crouch: 0.53,
  nearFlare: 25 * DEGREES,
  farFlare: 25 * DEGREES,
  fiveHole: 0.06,
  torsoLean: 20 * DEGREES,
  nearHandHeight: 0.56,
  farHandHeight: 0.56,
  nearHandAhead: 0.42,
  farHandAhead: 0.42,
  bladeLead: 0.32,
  nearDown: 1,
  farDown: 1,
}

/** Standing with the near pad and shoulder over the post, outside edge past it. */
const OVERLAP: Stance = {
  ...SET,
  crouch: 0.24,
  feetWidth: 0.56,
  kneeBend: 70 * DEGREES,
  torsoLean: 26 * DEGREES,
  fiveHole: 0.06,
  nearHandOut: 0.12,
  nearHandAhead: 0.36,
  nearHandHeight: 0.8,
}

/** Standing, hips moved to the post and the trunk leant on it. */
const LEAN: Stance = {
  ...OVERLAP,
  crouch: 0.22,
  sideLean: 12 * DEGREES,
  hipShift: 0.08,
  nearHandOut: 0.1,
  nearHandAhead: 0.3,
}

/** Near pad upright against the post, far pad flat along the ice. */
const VH: Stance = {
  ...SET,
  crouch: 0.47,
  feetWidth: 0.44,
  kneeBend: 105 * DEGREES,
  nearFlare: 10 * DEGREES,
  farFlare: 20 * DEGREES,
  fiveHole: 0.02,
  torsoLean: 14 * DEGREES,
  sideLean: 8 * DEGREES,
  hipShift: 0.06,
  nearHandHeight: 0.72,
  nearHandOut: 0.1,
  nearHandAhead: 0.3,
  farHandHeight: 0.56,
  farHandAhead: 0.42,
  bladeLead: 0.3,
  nearDown: 0,
  farDown: 1,
}

/** Near pad flat with its toe at the post, far leg up with its edge in the ice to push. */
const RVH: Stance = {
  ...VH,
  crouch: 0.5,
  feetWidth: 0.76,
  kneeBend: 100 * DEGREES,
  nearFlare: 50 * DEGREES,
  farFlare: 12 * DEGREES,
  fiveHole: 0.04,
  torsoLean: 18 * DEGREES,
  sideLean: 16 * DEGREES,
  hipShift: 0.14,
  nearDown: 1,
  farDown: 0,
}

/** The named stances. */
export const STANCES = {
  upright: UPRIGHT,
  set: SET,
  narrow: NARROW,
  butterfly: BUTTERFLY,
  overlap: OVERLAP,
  lean: LEAN,
  VH,
  RVH,
} as const satisfies Readonly<Record<string, Stance>>

export type StanceName = keyof typeof STANCES

/** Where the hands are held, out from the side of the hips and ahead of them, in place of the stance's own. */
export const HANDS = {
  /** Outside the hips, close to the body. */
  beside: { out: 0.2, ahead: 0.42 },
  /** In front of the hips, inside the body's own outline. */
  tucked: { out: 0.04, ahead: 0.5 },
  /** Well ahead and still outside the outline. */
  projected: { out: 0.2, ahead: 0.66 },
} as const satisfies Readonly<Record<string, { readonly out: number; readonly ahead: number }>>
