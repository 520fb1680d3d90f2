import type { Source } from "../source.ts"

/** Sources of the plays model. */
export const playsSources: Readonly<Record<string, Source>> = {}
