import { quantityOverReplicates } from "../../sim/statistics/ratio.ts"
import type { PointResult } from "../results.ts"
import type { Geometry } from "./geometry.ts"
import { CONFIDENCE } from "./intervals.ts"
import { OPEN_NET_SHOTS } from "./open-net.ts"

/** Puts the open net during the move, with its intervals, to the results of each design point's whole play. */
export function withOpenNets(points: readonly PointResult[], found: readonly Geometry["openNet"][]): PointResult[] {
  return points.map((point) => {
    const shares = found[point.index] ?? null
    if (shares === null || point.spot !== "all") return point
    const own = Object.entries(shares).map(([key, { above, below }]) => [
      key,
      quantityOverReplicates(above, below, OPEN_NET_SHOTS, CONFIDENCE),
    ])
    return { ...point, estimates: { ...point.estimates, ...Object.fromEntries(own) } }
  })
}
