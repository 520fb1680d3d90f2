import type { Metres, Radians, Steradians } from "../../sim/units.ts"

/** Angle between the insides of the posts as seen from (x, y), x > 0. */
export function angleBetweenPosts(x: Metres, y: Metres, width: Metres): Radians {
  return Math.atan2(0.5 * width - y, x) - Math.atan2(-0.5 * width - y, x)
}

/**
 * Solid angle of the mouth as seen from (x, y, z), x > 0. A rectangle a by b seen from distance x straight before one of
 * its corners fills atan(ab / (x sqrt(a² + b² + x²))); the mouth is four of them, with signs.
 */
export function solidAngleOfMouth(x: Metres, y: Metres, z: Metres, width: Metres, height: Metres): Steradians {
  const corner = (a: Metres, b: Metres) => Math.atan((a * b) / (x * Math.sqrt(a * a + b * b + x * x)))
  const left = 0.5 * width - y
  const right = -0.5 * width - y
  return corner(left, height - z) - corner(left, -z) - corner(right, height - z) + corner(right, -z)
}
