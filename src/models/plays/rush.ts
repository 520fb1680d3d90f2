import type { Leg } from "../../sim/play/course.ts"
import { chosenRink } from "../rink/chosen-rink.ts"
import type { ChoiceName, Settings } from "../settings.ts"
import { carryTo, type PlayBranch, polar, type Spot } from "./branch.ts"

/** The puck carried to where the shot is taken, and shot in stride. */
export function rush(settings: Settings): PlayBranch[] {
  const end = polar(settings.quantities["play.distance"], settings.quantities["play.angle"])
  const legs = [carryIn(settings, end)]
  return [{ name: "spot", share: 1, start: carryStart(settings, end), legs, lost: 0, settings }]
}

/** The puck carried to `end` at the settings' speed. */
export function carryIn(settings: Settings, end: Spot): Leg {
  const { "play.carry_speed": speed, "play.carry_speed_spread": spread } = settings.quantities
  return carryTo(end, speed, spread * speed)
}

/** Where a carry that ends at `end` starts: as far out as the settings say, in their lane. */
export function carryStart(settings: Settings, end: Spot): Spot {
  const distance = settings.quantities["play.carry_from_distance"]
  const lane = settings.choices["play.lane"] as ChoiceName<"play.lane">
  if (lane === "spot") return polar(distance, settings.quantities["play.carry_from_angle"])
  const y = laneSide(lane, settings, end)
  return { x: Math.sqrt(Math.max(0, distance * distance - y * y)), y }
}

/** How far beside the middle of the ice a lane runs; the attackers' left is the goalie's right. */
function laneSide(lane: Exclude<ChoiceName<"play.lane">, "spot">, settings: Settings, end: Spot): number {
  if (lane === "straight") return end.y
  if (lane === "middle") return 0
  const { endSpot, width } = chosenRink(settings)
  const wing = 0.5 * (endSpot.y + 0.5 * width)
  return lane === "left wing" ? -wing : wing
}
