import type { Settings } from "../settings.ts"
import { carryTo, type PlayBranch, type Spot, shotFrom } from "./branch.ts"
import { fromSide } from "./side.ts"

/** Where the turns behind the net are, as shares of how far beside the middle the puck goes round. */
const INTO = 0.5
const OUT_OF = 0.6

/** The puck carried behind the net from one side to the other and pushed along the ice from beside the far post. */
export function wrapAround(settings: Settings): PlayBranch[] {
  const q = settings.quantities
  const side = fromSide(settings)
  const { "play.wrap_beside": beside, "play.wrap_behind": behind, "play.wrap_speed": speed } = q
  const carry = (to: Spot) => carryTo(to, speed, q["play.carry_speed_spread"] * speed)
  const start = { x: 0, y: side * beside }
  const end = { x: q["play.wrap_out"], y: -side * q["play.wrap_post"] }
  // round the back, and out of the turn wider than into it
  const legs = [carry({ x: -behind, y: side * INTO * beside }), carry({ x: -behind, y: -side * OUT_OF * beside })]
  const out = [carry({ x: 0, y: -side * beside }), carry(end)]
  const shot = shotFrom(settings, end)
  const along = { ...shot.quantities, "shooter.steepest_aim": 0, "shooter.speed": q["play.wrap_shot_speed"] }
  return [{ name: "spot", share: 1, start, legs: [...legs, ...out], lost: 0, settings: { ...shot, quantities: along } }]
}
