import { boxOfPlay } from "../../models/positioning/box-of.ts"
import type { Settings } from "../../models/settings.ts"

/** Measures of geometry at one design point, by key: no sampling, no interval. */
export function exactMeasures(settings: Settings): Record<string, number> {
  const box = boxOfPlay(settings)
  return {
    net_covered: box.netCovered,
    box_area_m2: box.boxArea,
    solid_angle_sr: box.solidAngle,
    clear_circle_m: box.clearCircle,
    depth_taken_m: box.depthTaken,
  }
}
