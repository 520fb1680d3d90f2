import type { Source } from "../source.ts"

/** Sources of the puck model. */
export const puckSources: Readonly<Record<string, Source>> = {}
