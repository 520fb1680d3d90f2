/** Where the draws of a run's shots come from. */
export const SCRAMBLED_POINTS = "scrambled Sobol points"
export const INDEPENDENT_DRAWS = "independent draws"
export const SAMPLERS = [SCRAMBLED_POINTS, INDEPENDENT_DRAWS] as const
export type Sampler = (typeof SAMPLERS)[number]
