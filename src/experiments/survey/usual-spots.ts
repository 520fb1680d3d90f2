import { blueLineEdges, type Rink } from "../../models/rink/rink.ts"
import type { ShootingSpot } from "./request.ts"

/** Where shots usually come from on a sheet; left and right are the goalie's. */
export function usualSpots(rink: Rink): ShootingSpot[] {
  const { endSpot, neutralSpot } = rink
  const point = { x: blueLineEdges(rink).near, y: neutralSpot.y }
  return [
    { label: "slot", x: endSpot.x, y: 0 },
    { label: "left spot", ...endSpot },
    { label: "right spot", x: endSpot.x, y: -endSpot.y },
    { label: "left point", ...point },
    { label: "right point", x: point.x, y: -point.y },
  ]
}
