import type { Source } from "../source.ts"

/** Sources of the shooter model. */
export const shooterSources: Readonly<Record<string, Source>> = {}
