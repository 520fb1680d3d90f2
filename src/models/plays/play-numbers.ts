import * as P from "../../sim/play.ts"
import type { Settings } from "../settings.ts"

/** What the puck does before the shot, as the engine's numbers. */
export function playNumbers(settings: Settings): Float64Array {
  const q = settings.quantities
  const play = P.straightPlay()
  if (settings.choices["play.kind"] !== "cross-ice pass") return play
  const distance = q["play.pass_from_distance"]
  const angle = q["play.pass_from_angle"]
  play[P.PLAY_KIND] = P.PLAY_PASS
  play[P.FROM_X] = distance * Math.cos(angle)
  play[P.FROM_Y] = distance * Math.sin(angle)
  play[P.PASS_SPEED] = q["play.pass_speed"]
  play[P.PASS_SPEED_SD] = q["play.pass_speed_spread"] * q["play.pass_speed"]
  play[P.PASS_CARRY] = q["play.pass_carry"]
  play[P.RECEIVE_TIME] = q["play.receive_time"]
  play[P.RECEIVE_SPREAD] = q["play.receive_spread"]
  return play
}
