/**
 * Published proportions of the human body, as shares of stature. One home: body-size.ts turns them into metres.
 */
export interface Fraction {
  readonly value: number
  /** Key into src/models/sources.ts. */
  readonly source: string
}

function fraction(value: number, source: string): Fraction {
  return { value, source }
}

/** Segment lengths and heights as shares of stature [Winter]. */
export const SEGMENTS = {
  ankleHeight: fraction(0.039, "Winter"),
  kneeHeight: fraction(0.285, "Winter"),
  hipHeight: fraction(0.53, "Winter"),
  shoulderHeight: fraction(0.818, "Winter"),
  eyeHeight: fraction(0.936, "Winter"),
  thigh: fraction(0.245, "Winter"),
  shank: fraction(0.246, "Winter"),
  trunk: fraction(0.288, "Winter"),
  upperArm: fraction(0.186, "Winter"),
  forearm: fraction(0.146, "Winter"),
  hand: fraction(0.108, "Winter"),
  head: fraction(0.13, "Winter"),
  foot: fraction(0.152, "Winter"),
  /** Elbow to the middle of a closed hand: the forearm as far as a glove is held. */
  forearmToGrip: fraction(0.1987, "AnsurII"),
} as const

/** Breadths and depths as shares of stature, and the mass and stature they go with [AnsurII]. */
export interface Girths {
  readonly acromialBreadth: Fraction
  readonly bideltoidBreadth: Fraction
  readonly chestBreadth: Fraction
  readonly chestDepth: Fraction
  readonly hipBreadth: Fraction
  readonly thighCircumference: Fraction
  readonly headBreadth: Fraction
  /** Mean stature (m) and mass (kg) of the people measured. */
  readonly stature: number
  readonly mass: number
}

export const GIRTHS = {
  men: {
    acromialBreadth: fraction(0.2368, "AnsurII"),
    bideltoidBreadth: fraction(0.2909, "AnsurII"),
    chestBreadth: fraction(0.1649, "AnsurII"),
    chestDepth: fraction(0.1446, "AnsurII"),
    hipBreadth: fraction(0.197, "AnsurII"),
    thighCircumference: fraction(0.3562, "AnsurII"),
    headBreadth: fraction(0.088, "AnsurII"),
    stature: 1.7562,
    mass: 85.52,
  },
  women: {
    acromialBreadth: fraction(0.2244, "AnsurII"),
    bideltoidBreadth: fraction(0.2767, "AnsurII"),
    chestBreadth: fraction(0.1655, "AnsurII"),
    chestDepth: fraction(0.152, "AnsurII"),
    hipBreadth: fraction(0.2174, "AnsurII"),
    thighCircumference: fraction(0.3785, "AnsurII"),
    headBreadth: fraction(0.0909, "AnsurII"),
    stature: 1.6285,
    mass: 67.76,
  },
} as const satisfies Record<string, Girths>
