import type { Source } from "../source.ts"

/** Sources of the reference model: none; what goalies tell of their cues is coaching opinion without a measurement. */
export const referenceSources: Readonly<Record<string, Source>> = {}
