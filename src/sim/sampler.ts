/** Where the draws of a run's shots come from. */
export const SCRAMBLED_POINTS = "scrambled Sobol points"
export const INDEPENDENT_DRAWS = "independent draws"
export const SAMPLERS = [SCRAMBLED_POINTS, INDEPENDENT_DRAWS] as const
export type Sampler = (typeof SAMPLERS)[number]
/** Where they come from unless a file or a caller says otherwise: what `benchmarks/variance.md` found to need fewest shots. */
export const USUAL_SAMPLER: Sampler = SCRAMBLED_POINTS
