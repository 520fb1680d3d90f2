import type { Source } from "../source.ts"

/** Sources of the positioning model. */
export const positioningSources: Readonly<Record<string, Source>> = {}
