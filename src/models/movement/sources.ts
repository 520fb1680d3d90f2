import type { Source } from "../source.ts"

/** Sources of the movement model: the studies found give no speeds in what could be read of them. */
export const movementSources: Readonly<Record<string, Source>> = {}
