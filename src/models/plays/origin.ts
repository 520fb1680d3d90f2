import type { Metres, Radians } from "../../sim/units.ts"

/** A place shots come from, rink frame. Weights are relative; a label names the place in results. */
export type Origin =
  | { readonly kind: "spot"; readonly label: string; readonly weight: number; readonly x: Metres; readonly y: Metres }
  | {
      readonly kind: "polygon"
      readonly label: string
      readonly weight: number
      /** Corners in order, at least three, [x, y]. */
      readonly corners: readonly (readonly [Metres, Metres])[]
    }
  | {
      readonly kind: "wedge"
      readonly label: string
      readonly weight: number
      readonly nearest: Metres
      readonly farthest: Metres
      /** Angles from the x axis, positive toward the goalie's left. */
      readonly from: Radians
      readonly to: Radians
    }
