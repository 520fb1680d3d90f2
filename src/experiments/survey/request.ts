import type { KnownRink } from "../../models/reference/ice-marking.ts"
import type { Settings } from "../../models/settings.ts"
import type { Metres } from "../../sim/units.ts"

/** A sheet and what it is called. */
export interface NamedRink extends KnownRink {
  /** The preset's name. */
  readonly sheet: string
}

/** A place shots usually come from. */
export interface ShootingSpot {
  readonly label: string
  readonly x: Metres
  readonly y: Metres
}

/** What a coach knows of a strange rink, read from a file. */
export interface SurveyRequest {
  readonly name: string
  readonly about: string
  readonly settings: Settings
  readonly here: NamedRink
  /** Null: this is the goalie's home rink. */
  readonly home: NamedRink | null
  readonly spots: readonly ShootingSpot[]
  /** Settings that the file wrote: no assumption any more. */
  readonly setByFile: readonly string[]
}
