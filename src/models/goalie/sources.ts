import type { Source } from "../source.ts"

/** Sources of the goalie model. */
export const goalieSources: Readonly<Record<string, Source>> = {}
