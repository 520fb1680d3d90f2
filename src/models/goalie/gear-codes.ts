import type { Metres } from "../../sim/units.ts"
import { SEGMENTS } from "./body-fractions.ts"

/** Largest goalkeeper equipment one rule code allows, metres. */
export interface GearCode {
  readonly padWidth: Metres
  /** Longest pad, bottom to top, for a goalie of this stature. */
  readonly padLength: (stature: Metres) => Metres
  readonly glovePerimeter: Metres
  readonly blockerWidth: Metres
  readonly blockerLength: Metres
  readonly thighGuardWidth: Metres
  readonly bladeLength: Metres
  readonly bladeHeight: Metres
  readonly paddleLength: Metres
  readonly paddleWidth: Metres
  /** Key into src/models/sources.ts. */
  readonly source: string
  /** What the code is, in one sentence. */
  readonly why: string
}

/** Pad length limits by stature of one European league: stature up to (m), pad (m). */
export const PAD_LENGTH_BY_STATURE: {
  readonly rows: readonly (readonly [Metres, Metres])[]
  readonly source: string
} = {
  rows: [
    [1.685, 0.865],
    [1.755, 0.89],
    [1.825, 0.93],
    [Number.POSITIVE_INFINITY, 0.965],
  ],
  source: "PadTableAUT",
}

/** Stature at which a youth goalie's gear reaches the adult maxima (an assumption). */
const YOUTH_STATURE = 1.75

function padByStature(stature: Metres): Metres {
  for (const [upTo, pad] of PAD_LENGTH_BY_STATURE.rows) if (stature < upTo) return pad
  return Number.NaN
}

/**
 * The anatomical limit: floor to knee centre, 45 % of knee centre to pelvis and 10.16 cm for the skate [LegPadsWHL], with
 * the knee and the pelvis at their shares of stature [Winter]; never over the 96.5 cm of the fixed codes.
 */
export function anatomicalPadLength(stature: Metres): Metres {
  const knee = SEGMENTS.kneeHeight.value
  const pelvis = SEGMENTS.hipHeight.value
  return Math.min(NORTH_AMERICAN.padLength(stature), (knee + 0.45 * (pelvis - knee)) * stature + 0.1016)
}

const NORTH_AMERICAN: GearCode = {
  padWidth: 0.2794,
  padLength: () => 0.965,
  glovePerimeter: 1.143,
  blockerWidth: 0.2032,
  blockerLength: 0.381,
  thighGuardWidth: 0.254,
  bladeLength: 0.3937,
  bladeHeight: 0.0889,
  paddleLength: 0.6604,
  paddleWidth: 0.0889,
  source: "GearNorthAmerica",
  why: "North American amateur, junior and college codes: pads of 11 by 38 inches, a glove of 45 inches around.",
}

/** Gear codes by name; "youth" is made from a code by {@link youthGear}. */
export const GEAR_CODES: Readonly<Record<string, GearCode>> = {
  "north-american": NORTH_AMERICAN,
  anatomical: {
    ...NORTH_AMERICAN,
    padLength: anatomicalPadLength,
    source: "LegPadsWHL",
    why: "North American professional and western junior codes: as above, with the pad's height tied to the goalie's legs.",
  },
  international: {
    padWidth: 0.28,
    padLength: padByStature,
    glovePerimeter: 1.145,
    blockerWidth: 0.205,
    blockerLength: 0.385,
    thighGuardWidth: 0.255,
    bladeLength: 0.39,
    bladeHeight: 0.09,
    paddleLength: 0.71,
    paddleWidth: 0.09,
    source: "GearInternational",
    why: "International code; the pad's length by stature is that of one European league [PadTableAUT].",
  },
  youth: {
    ...NORTH_AMERICAN,
    source: "assumption",
    why: "The North American maxima scaled by stature over 1.75 m for a growing goalie (an assumption: no code scales gear).",
  },
}

/** A code's maxima scaled down to a growing goalie: by stature over 1.75 m, never up (an assumption). */
export function youthGear(code: GearCode, stature: Metres): GearCode {
  const s = Math.min(1, stature / YOUTH_STATURE)
  return {
    padWidth: s * code.padWidth,
    padLength: () => s * code.padLength(stature),
    glovePerimeter: s * code.glovePerimeter,
    blockerWidth: s * code.blockerWidth,
    blockerLength: s * code.blockerLength,
    thighGuardWidth: s * code.thighGuardWidth,
    bladeLength: s * code.bladeLength,
    bladeHeight: s * code.bladeHeight,
    paddleLength: s * code.paddleLength,
    paddleWidth: s * code.paddleWidth,
    source: code.source,
    why: code.why,
  }
}
