import type { Metres, MetresPerSecond, MetresPerSecondSquared, PerMetre, Seconds } from "../units.ts"

/**
 * Speed of a puck after sliding `distance` along the ice; 0 when it stops before. dv/dt = -(a + k v²), a = mu g:
 *
 *   v1² = v0² - 2 d (a + k v0²) f(2 k d)     f(x) = (1 - exp(-x)) / x, 1 for x = 0
 */
export function slidingSpeed(
  friction: MetresPerSecondSquared,
  drag: PerMetre,
  speed: MetresPerSecond,
  distance: Metres,
): MetresPerSecond {
  const squared = speed * speed - 2 * distance * (friction + drag * speed * speed) * fade(2 * drag * distance)
  return squared > 0 ? Math.sqrt(squared) : 0
}

/**
 * Time a sliding pass takes over `distance`; Infinity when the puck stops before. With r = (v0 - v1) / (a + k v0 v1):
 *
 *   t = atan(r sqrt(a k)) / sqrt(a k)     r where friction or drag is zero
 *
 * v0 - v1 is taken from the difference of the squares, which stays exact for a slide that hardly slows.
 */
export function slidingArrival(
  friction: MetresPerSecondSquared,
  drag: PerMetre,
  speed: MetresPerSecond,
  distance: Metres,
): Seconds {
  if (distance <= 0) return 0
  const shrink = fade(2 * drag * distance)
  const loss = friction + drag * speed * speed
  const squared = speed * speed - 2 * distance * loss * shrink
  if (!(squared > 0)) return Number.POSITIVE_INFINITY
  const last = Math.sqrt(squared)
  // too small to be told from none
  if (loss < 1e-200) return distance / speed
  const r = (2 * distance * shrink * loss) / ((speed + last) * (friction + drag * speed * last))
  const x = r * Math.sqrt(friction * drag)
  return x < 1e-9 ? r : (r * Math.atan(x)) / x
}

/**
 * Time a saucer pass takes over `distance`: level flight over `carry`, then a slide. The puck leaves the ice at `speed`
 * so steeply that it comes down `carry` away; drag slows its level speed h over the ice, gravity alone turns it back:
 *
 *   T = (exp(k c) - 1) / (k h)     h² = (v0² + sqrt(v0⁴ - (g h T)²)) / 2, the flatter way
 *
 * Landing takes mu times the vertical speed g T / 2 off the level speed, and the puck stays down. Infinity when the speed
 * cannot carry it so far or it stops before it arrives.
 */
export function saucerArrival(
  gravity: MetresPerSecondSquared,
  iceFriction: number,
  drag: PerMetre,
  speed: MetresPerSecond,
  carry: Metres,
  distance: Metres,
): Seconds {
  const stretched = drag === 0 ? carry : Math.expm1(drag * carry) / drag
  const root = speed ** 4 - (gravity * stretched) ** 2
  if (root < 0) return Number.POSITIVE_INFINITY
  const level = Math.sqrt(0.5 * (speed * speed + Math.sqrt(root)))
  // taken out of the air before it lands
  if (distance <= carry) return drag === 0 ? distance / level : Math.expm1(drag * distance) / (drag * level)

  const flight = stretched / level
  const landing = level * Math.exp(-drag * carry) - iceFriction * 0.5 * gravity * flight
  if (landing <= 0) return Number.POSITIVE_INFINITY
  return flight + slidingArrival(iceFriction * gravity, drag, landing, distance - carry)
}

/** (1 - exp(-x)) / x, and its limit 1. */
function fade(x: number): number {
  return x < 1e-12 ? 1 : -Math.expm1(-x) / x
}
