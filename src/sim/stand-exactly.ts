import type { Posture } from "./parts.ts"

import { ANGLE_BIAS, DEPTH, POST_TURN, STAND_OFF } from "./pose.ts"
import { peek } from "./stand-for-shot.ts"

import { stand } from "./station.ts"
import type { Metres } from "./units.ts"

/** Writes the station of a pose (its posture and numbers) for a puck at (x, y): its steady angle bias, no error of a shot. */
export function stationExactly(
  posture: Posture,
  numbers: Float64Array,
  mouthHalfWidth: Metres,
  x: Metres,
  y: Metres,
  station: Float64Array,
): void {
  const nearest = posture.foremost + numbers[STAND_OFF]!
  stand(
    numbers[DEPTH]!,
    x,
    y,
    posture.halfStance,
    mouthHalfWidth,
    nearest,
    peek(numbers, y),
    numbers[ANGLE_BIAS]!,
    0,
    numbers[POST_TURN]!,
    station,
  )
}
