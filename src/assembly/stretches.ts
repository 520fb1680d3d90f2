import {
  MOST_STRETCHES,
  STRETCH_CERTAIN,
  STRETCH_COUNT,
  STRETCH_HI,
  STRETCH_LIMB,
  STRETCH_LO,
  STRETCH_REGION,
  STRETCH_WHEN,
} from "../sim/compiled/layout.ts"
import { NUMBER } from "./tables.ts"

/** Starts a new shot. */
export function clearStretches(stretches: usize): void {
  store<i32>(stretches, 0, STRETCH_COUNT)
  store<i32>(stretches, 0, STRETCH_CERTAIN)
}

// @ts-ignore: decorator
@inline
export function isCertain(stretches: usize): bool {
  return load<i32>(stretches, STRETCH_CERTAIN) != 0
}

// @ts-ignore: decorator
@inline
export function setCertain(stretches: usize): void {
  store<i32>(stretches, 1, STRETCH_CERTAIN)
}

/** Adds a stretch; an empty one is ignored. */
export function addStretch(stretches: usize, lo: f64, hi: f64, when: f64, region: i32, limb: i32): void {
  const i = load<i32>(stretches, STRETCH_COUNT)
  if (!(hi > lo) || i == MOST_STRETCHES) return
  store<i32>(stretches, i + 1, STRETCH_COUNT)
  const at = stretches + i * NUMBER
  store<f64>(at, lo, STRETCH_LO)
  store<f64>(at, hi, STRETCH_HI)
  store<f64>(at, when, STRETCH_WHEN)
  store<u8>(stretches + i, region, STRETCH_REGION)
  store<u8>(stretches + i, limb, STRETCH_LIMB)
}
