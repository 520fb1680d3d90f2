import type { Leg } from "../../sim/play/course.ts"
import type { Metres, Probability } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { carryTo, cutTo, type PlayBranch, polar, type Spot, shotFrom } from "./branch.ts"
import { carryStart } from "./rush.ts"

/** Places along the attacker's way, so far apart and so many, from which the one out of the goalie's reach is taken. */
const RUNG: Metres = 0.75
const RUNGS = 9

/** One thing the attacker may do, begun where the puck is this far from the centre of the goal line. */
type Ending = (settings: Settings, at: Metres) => { readonly legs: readonly Leg[]; readonly settings: Settings }

/**
 * The puck carried in alone: shot from play.distance, taken aside close in and shot from there, or shot after braking.
 * Each is begun farther out against a goalie whom the attacker would run into.
 */
export function breakaway(settings: Settings): PlayBranch[] {
  const { quantities: q, choices } = settings
  const deke = q["play.deke_share"]
  const brake = (1 - deke) * q["play.brake_share"]
  const forehand = deke * q["play.forehand_share"]
  // the attacker comes in backward along x: a blade on their left is on the goalie's right
  const bladeSide = choices["shooter.hand"] === "left" ? -1 : 1
  const [shot, close] = [q["play.distance"], q["play.deke_distance"]]
  return [
    ...rungs(settings, "shot", 1 - deke - brake, shot, inStride),
    ...rungs(settings, "deke to the forehand", forehand, close, dekeTo(bladeSide)),
    ...rungs(settings, "deke to the backhand", deke - forehand, close, dekeTo(-bladeSide, "backhand")),
    ...rungs(settings, "braked shot", brake, shot, braked),
  ].filter(({ share }) => share > 0)
}

/** An ending begun at `nearest`, or farther out: each goalie meets the one or two that keep off them. */
function rungs(settings: Settings, name: string, share: Probability, nearest: Metres, ending: Ending): PlayBranch[] {
  if (share === 0) return []
  const start = carryStart(settings, polar(nearest, settings.quantities["play.angle"]))
  return Array.from({ length: RUNGS }, (_, rung) => {
    const { legs, settings: own } = ending(settings, nearest + rung * RUNG)
    return {
      name,
      share,
      start,
      legs,
      lost: 0,
      settings: own,
      rung: { start, nearest, step: RUNG, at: rung, of: RUNGS },
    }
  })
}

function inStride(settings: Settings, at: Metres): ReturnType<Ending> {
  const spot = polar(at, settings.quantities["play.angle"])
  return { legs: [carried(settings, spot)], settings: shotFrom(settings, spot) }
}

function braked(settings: Settings, at: Metres): ReturnType<Ending> {
  const q = settings.quantities
  const spot = polar(at, q["play.angle"])
  const slow = carryTo(spot, q["play.brake_speed"], q["play.carry_speed_spread"] * q["play.brake_speed"])
  const legs = [carried(settings, polar(at + q["play.brake_over"], q["play.angle"])), slow]
  return { legs, settings: shotFrom(settings, spot) }
}

/** The puck to one side (1 the goalie's left) at the top speed to the side, while the attacker comes on. */
function dekeTo(side: number, shot?: string): Ending {
  return (settings, at) => {
    const q = settings.quantities
    const { "play.angle": angle, "play.deke_aside": aside } = q
    const begins = polar(at, angle)
    const takes = aside / q["play.deke_speed"]
    const on = Math.min(q["play.deke_drive"] * q["play.carry_speed"] * takes, at - q["play.deke_out"])
    const end: Spot = {
      x: begins.x - on * Math.cos(angle) - side * aside * Math.sin(angle),
      y: begins.y - on * Math.sin(angle) + side * aside * Math.cos(angle),
    }
    const speed = Math.hypot(on, aside) / takes
    const cut = cutTo(end, speed, q["play.carry_speed_spread"] * speed, q["play.deke_finish"], q["play.receive_spread"])
    return { legs: [carried(settings, begins), cut], settings: shotFrom(settings, end, shot) }
  }
}

function carried({ quantities: q }: Settings, to: Spot): Leg {
  return carryTo(to, q["play.carry_speed"], q["play.carry_speed_spread"] * q["play.carry_speed"])
}
