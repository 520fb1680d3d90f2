/** Numbers of a story, rounded to what can be told apart; null where there is no bound. */

/** Seconds in milliseconds, to a hundredth. */
export function milliseconds(seconds: number): number {
  return rounded(seconds * 1000, 2)
}

/** Metres in centimetres, to a hundredth. */
export function centimetres(metres: number): number {
  return rounded(metres * 100, 2)
}

/** The same, or null for a number without bound. */
export function bounded(value: number): number | null {
  return Number.isFinite(value) ? value : null
}

/** A number with at most so many decimals. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals
  const whole = Math.round(value * scale) / scale
  return whole === 0 ? 0 : whole
}
