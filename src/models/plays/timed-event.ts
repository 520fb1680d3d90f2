import type { Metres, MetresPerSecond, Seconds } from "../../sim/units.ts"

/** One event of a play that a person wrote down. Places in the rink frame, times from any zero. */
export type TimedEvent =
  | { readonly does: "puck"; readonly at: Seconds; readonly x: Metres; readonly y: Metres }
  | {
      readonly does: "carry" | "cut"
      readonly at: Seconds
      readonly arrives: Seconds
      readonly x: Metres
      readonly y: Metres
    }
  | {
      readonly does: "pass"
      readonly at: Seconds
      readonly x: Metres
      readonly y: Metres
      /** Null: the usual speed, play.pass_speed. */
      readonly speed: MetresPerSecond | null
      readonly flies: Metres
    }
  | { readonly does: "shot"; readonly at: Seconds; readonly type: string | null }
