import { goalSources } from "./goal/sources.ts"
import { goalieSources } from "./goalie/sources.ts"
import { movementSources } from "./movement/sources.ts"
import { playsSources } from "./plays/sources.ts"
import { positioningSources } from "./positioning/sources.ts"
import { puckSources } from "./puck/sources.ts"
import { referenceSources } from "./reference/sources.ts"
import { rinkSources } from "./rink/sources.ts"
import { shooterSources } from "./shooter/sources.ts"
import type { Source } from "./source.ts"

/** The bibliography: one entry for each source key used by a parameter, a preset or a published check. */
export const SOURCES: Readonly<Record<string, Source>> = {
  ...rinkSources,
  ...goalSources,
  ...puckSources,
  ...shooterSources,
  ...goalieSources,
  ...positioningSources,
  ...playsSources,
  ...movementSources,
  ...referenceSources,
}
