import type { Source } from "../source.ts"
import { bodySources } from "./body-sources.ts"
import { limbSources } from "./limb-sources.ts"
import { timingSources } from "./timing-sources.ts"

/** Sources of the goalie model. */
export const goalieSources: Readonly<Record<string, Source>> = { ...bodySources, ...limbSources, ...timingSources }
