import { quantities } from "../parameter.ts"

const DEGREE = Math.PI / 180
const ANGLE = { dimension: "angle", least: 0, most: 15 * DEGREE, unit: "deg", source: "assumption" } as const
const SHARE = { dimension: "share", least: 0, most: 1, unit: "", source: "assumption" } as const
const NUMBER = { dimension: "number", least: 0, most: 5, unit: "", source: "assumption" } as const
const LENGTH = { dimension: "length", least: 0, most: 30, unit: "m", source: "assumption" } as const

/** Quantities of how far a shot strays from where it is aimed, and of the shots that are hardly aimed at all. */
export const accuracyQuantities = quantities({
  "shooter.aim_error": {
    ...ANGLE,
    value: 1.7 * DEGREE,
    low: 1.3 * DEGREE,
    high: 2.2 * DEGREE,
    why: "Standard deviation of an aimed shot in azimuth, far out and along the ice; corner hits of 67 and 45 % invert to 1.6 and 2.2 deg if the target is 30 cm wide.",
  },
  "shooter.close_in_growth": {
    ...NUMBER,
    value: 0.75,
    low: 0.3,
    high: 1.2,
    why: "The aim error is multiplied by 1 + growth exp(-distance / length): in tight there is no time and no room.",
  },
  "shooter.close_in_length": {
    ...LENGTH,
    least: 0.5,
    value: 6,
    low: 4,
    high: 9,
    why: "The length in close_in_growth.",
  },
  "shooter.vertical_error": {
    ...NUMBER,
    value: 0.9,
    low: 0.7,
    high: 1.1,
    why: "Error in elevation over error in azimuth.",
  },
  "shooter.elevation_growth": {
    ...NUMBER,
    value: 1,
    low: 0.4,
    high: 1.8,
    why: "The aim error is multiplied by 1 + growth tan(elevation); fitted to top corners hit less often than bottom ones from 4 m.",
  },
  "shooter.speed_error": {
    ...NUMBER,
    value: 0.5,
    low: 0,
    high: 1.2,
    most: 3,
    why: "The aim error grows as (speed / usual speed of this shot) to this power.",
  },
  "shooter.moving_puck_error": {
    ...NUMBER,
    value: 1.25,
    low: 1.1,
    high: 1.6,
    least: 1,
    why: "Multiplies the aim error of a puck shot while it slides: one-timers and tips.",
  },
  "shooter.bouncing_puck_error": {
    ...NUMBER,
    value: 1.6,
    low: 1.2,
    high: 2.2,
    least: 1,
    why: "Multiplies the aim error of a puck that bounces.",
  },
  "shooter.hurried_share": {
    ...SHARE,
    value: Number.NaN,
    low: Number.NaN,
    high: Number.NaN,
    source: "choice",
    why: "Share of shots that are hurried, not aimed; left out, it falls with distance from hurried_near to hurried_far.",
  },
  "shooter.hurried_near": {
    ...SHARE,
    value: 0.8,
    low: 0.6,
    high: 0.95,
    why: "Share of hurried shots at hurried_near_distance and nearer.",
  },
  "shooter.hurried_far": {
    ...SHARE,
    value: 0.25,
    low: 0.1,
    high: 0.4,
    why: "Share of hurried shots at hurried_far_distance and farther.",
  },
  "shooter.hurried_near_distance": { ...LENGTH, value: 3, low: 2, high: 4, why: "See hurried_near." },
  "shooter.hurried_far_distance": { ...LENGTH, value: 11, low: 9, high: 14, why: "See hurried_far." },
  "shooter.hurried_error": {
    ...ANGLE,
    value: 3.6 * DEGREE,
    low: 2.8 * DEGREE,
    high: 4.5 * DEGREE,
    why: "Standard deviation of a hurried shot about its own aim, in azimuth and in elevation.",
  },
  "shooter.hurried_height": {
    ...LENGTH,
    value: 0.38,
    low: 0.3,
    high: 0.5,
    most: 1.5,
    why: "Hurried shots are aimed about this height over the middle of the goal line.",
  },
  "shooter.hurried_spread_across": {
    ...LENGTH,
    value: 0.5,
    low: 0.35,
    high: 0.65,
    most: 2,
    why: "Standard deviation across the mouth of where hurried shots are aimed.",
  },
  "shooter.hurried_spread_up": {
    ...LENGTH,
    value: 0.3,
    low: 0.2,
    high: 0.4,
    most: 1,
    why: "Standard deviation in height of where hurried shots are aimed.",
  },
})
