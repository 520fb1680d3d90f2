import type { Metres } from "../../sim/units.ts"
import type { RinkMeasures } from "../rink/chosen-rink.ts"
import type { Rink } from "../rink/rink.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"
import { markBearing, markDistance, markMeasures } from "./marks.ts"
import type { MarkName } from "./parameters.ts"

/** A sheet as far as it is known: the rest is where the book wants it, and painted with an error. */
export interface KnownRink {
  readonly rink: Rink
  readonly measured: ReadonlySet<keyof RinkMeasures>
}

/** The line through a mark, remembered from the home rink. */
export interface MarkCue {
  readonly here: KnownRink
  /** Null: the goalie is at home, and remembers these very marks. */
  readonly home: KnownRink | null
  /** Standard deviation of the painter's error at the mark. */
  readonly paint: Metres
}

/**
 * The goalie knows by which angle the puck is beside the mark, and takes the mark for where it is at home: wrong by the
 * difference of the mark's bearings. The mark on the puck's own side is used; straight ahead those of both sides are,
 * and the difference cancels. Either sheet's painter errs unless that mark was measured.
 */
export function markError(cue: MarkCue, mark: MarkName, y: Metres): CueError {
  const { here, home, paint } = cue
  if (home === null) return NO_ERROR
  const difference = markBearing(here.rink, mark) - markBearing(home.rink, mark)
  const angleSpread = Math.hypot(...[here, home].map((sheet) => painted(sheet, mark, paint)))
  // Math.sign(-0) is -0: a bias of nothing is 0
  return { ...NO_ERROR, angleBias: y === 0 ? 0 : Math.sign(y) * difference + 0, angleSpread }
}

function painted({ rink, measured }: KnownRink, mark: MarkName, paint: Metres): number {
  const isMeasured = markMeasures(rink, mark).every((measure) => measured.has(measure))
  return isMeasured ? 0 : paint / markDistance(rink, mark)
}
