import type { Origin } from "../../models/plays/origin.ts"
import { playsQuantities } from "../../models/plays/parameters.ts"
import type { Metres, Radians } from "../../sim/units.ts"

/** How near and how far the puck may be, from the parameters of the plays. */
export const DISTANCE = playsQuantities["play.distance"]
export const ANGLE = playsQuantities["play.angle"]

/** What a spot must be, for a message. */
export const SPOT_RULE = `${DISTANCE.least} m to ${DISTANCE.most} m from the centre of the goal line and not behind it`

/** A spot from its distance and angle seen from the centre of the goal line. */
export function polarSpot(label: string, weight: number, distance: Metres, angle: Radians): Origin {
  return { kind: "spot", label, weight, x: distance * Math.cos(angle), y: distance * Math.sin(angle) }
}

/** True when a spot is no nearer and no farther than a shot may be; the goal line itself is allowed. */
export function spotIsPlayable(x: Metres, y: Metres): boolean {
  const distance = Math.hypot(x, y)
  return x >= -1e-9 && distance >= DISTANCE.least - 1e-9 && distance <= DISTANCE.most + 1e-9
}
