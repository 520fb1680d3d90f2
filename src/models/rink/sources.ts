import type { Source } from "../source.ts"

/** Sources of the rink model. */
export const rinkSources: Readonly<Record<string, Source>> = {}
