/**
 * Unit aliases. Inside the engine every quantity is SI and every angle is in radians; an alias in a signature says which.
 * They are plain aliases, not brands: branded arithmetic falls back to `number` at the first `+`.
 */
export type Metres = number
export type SquareMetres = number
export type Seconds = number
export type MetresPerSecond = number
export type MetresPerSecondSquared = number
export type Radians = number
export type PerMetre = number
export type Kilograms = number
export type KilogramsPerCubicMetre = number
export type Steradians = number
/** A number in [0, 1]. */
export type Probability = number
