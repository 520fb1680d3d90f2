import type { Metres, MetresPerSecond, MetresPerSecondSquared, Seconds } from "../units.ts"

/** Time of a free fall from rest over `height`: sqrt(2 h / g). No drop to the knees is quicker. */
export function fallTime(gravity: MetresPerSecondSquared, height: Metres): Seconds {
  return Math.sqrt((2 * height) / gravity)
}

/** Speed at the end of a free fall from rest over `height`: sqrt(2 g h). */
export function fallSpeed(gravity: MetresPerSecondSquared, height: Metres): MetresPerSecond {
  return Math.sqrt(2 * gravity * height)
}
