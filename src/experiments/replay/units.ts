/** Units in which a story speaks beside metres: one metre, or one metre a second, in each. */
export const FEET_PER_METRE = 1 / 0.3048
export const KMH = 3.6
export const MPH = 3600 / 1609.344
