import type { Source } from "../source.ts"

/** Sources of the goal model. */
export const goalSources: Readonly<Record<string, Source>> = {}
