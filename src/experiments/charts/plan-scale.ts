import type { Metres } from "../../sim/units.ts"
import type { Spec } from "./chart.ts"
import { pixel, values } from "./mouth.ts"

/**
 * How a part of the ice becomes pixels, seen from above with the net below and centre ice up the page, so that the
 * goalie's left is on the left: the same scale both ways.
 */
export interface PlanScale {
  readonly perMetre: number
  /** Pixel across for a place so far to the goalie's left. */
  readonly across: (y: Metres) => number
  /** Pixel down for a place so far out from the goal line. */
  readonly down: (x: Metres) => number
  readonly width: number
  readonly height: number
}

/** Fits a strip of ice, from `nearest` to `farthest` out and so far to either side, into a width in pixels. */
export function planScale(width: number, side: Metres, nearest: Metres, farthest: Metres): PlanScale {
  const perMetre = width / (2 * side)
  return {
    perMetre,
    across: (y) => pixel(width / 2 - y * perMetre),
    down: (x) => pixel((farthest - x) * perMetre),
    width,
    height: pixel((farthest - nearest) * perMetre),
  }
}

/** A line through places [x, y] in metres. */
export function lineThrough(scale: PlanScale, points: readonly (readonly [Metres, Metres])[]): string {
  return `M${points.map(([x, y]) => `${scale.across(y)},${scale.down(x)}`).join("L")}`
}

/** A full circle about a place. */
export function circleAt(scale: PlanScale, x: Metres, y: Metres, radius: Metres): string {
  const r = pixel(radius * scale.perMetre)
  return `M${scale.across(y)},${pixel(scale.down(x) - r)}a${r},${r} 0 1 1 0,${2 * r}a${r},${r} 0 1 1 0,${-2 * r}Z`
}

/** A group of the drawing's own size that cuts what runs out of it. */
export function clipped(scale: PlanScale, marks: readonly Spec[]): Spec {
  const frame = { width: scale.width, height: scale.height, clip: true }
  return { type: "group", encode: { update: values(frame) }, marks }
}
