import { REGIONS, type Region } from "../../sim/parts.ts"
import * as R from "../../sim/rebound/rebound-table.ts"
import type { QuantityKey, Settings } from "../settings.ts"
import { hurriedError } from "../shooter/accuracy.ts"
import { earlyRead, shotSpeed } from "../shooter/speed.ts"

/** What happens to loose pucks in the play of these settings; empty where rebounds are not played. [REBOUND_LENGTH] */
export function reboundOf(settings: Settings): Float64Array {
  if (settings.choices["play.rebounds"] === "none") return new Float64Array(0)
  const q = settings.quantities
  const table = new Float64Array(R.REBOUND_LENGTH)
  table[R.ATTACKERS] = Math.round(q["play.rebound_attackers"])
  table[R.DEFENDERS] = Math.round(q["play.rebound_defenders"])
  table[R.NEAREST] = Math.min(q["play.rebound_nearest"], q["play.rebound_furthest"])
  table[R.FURTHEST] = q["play.rebound_furthest"]
  table[R.HALF_ANGLE] = q["play.rebound_half_angle"]
  table[R.READS] = q["play.rebound_reads"]
  table[R.READS_SPREAD] = q["play.rebound_reads_spread"]
  table[R.STRIDE] = q["play.rebound_stride"]
  table[R.TOP_SPEED] = q["play.rebound_speed"]
  table[R.STICK] = q["play.rebound_stick"]
  table[R.SHOOTS] = q["play.rebound_shoots"]
  table[R.SHOOTS_SPREAD] = q["play.rebound_shoots_spread"]
  table[R.SEES] = q["play.rebound_sees"]
  table[R.AIM_ACROSS] = q["shooter.hurried_spread_across"]
  table[R.AIM_HEIGHT] = q["shooter.hurried_height"]
  table[R.AIM_UP] = q["shooter.hurried_spread_up"]
  table[R.RELEASE_HEIGHT] = q["shooter.release_height"]
  table[R.STEEPEST] = q["shooter.steepest_aim"]
  table[R.LASTS] = q["play.rebound_lasts"]
  table[R.OUT_OF_REACH] = q["play.rebound_within"]
  const shot = secondShot(settings)
  table[R.EARLY_READ] = earlyRead(shot)
  for (let i = 0; i < R.DISTANCE_ROWS; i++) {
    const distance = i * R.DISTANCE_STEP
    const speed = shotSpeed(shot, distance)
    const pace = q["play.rebound_pace"]
    const error = hurriedError(shot, distance)
    table.set(
      [pace * speed.mean, pace * speed.sd, Math.min(speed.least, pace * speed.mean), error.azimuth, error.elevation],
      R.BY_DISTANCE + i * R.DISTANCE_STRIDE,
    )
  }
  return table
}

/** A snap at the puck from where it lies, at the usual speed of shots from there; nothing stated for the first shot holds. */
function secondShot(settings: Settings): Settings {
  const { quantities, choices } = settings
  return {
    ...settings,
    quantities: { ...quantities, "shooter.speed": Number.NaN, "shooter.speed_sd": Number.NaN },
    choices: { ...choices, "shooter.shot": "by distance", "shooter.puck": "moving" },
  }
}

const HOLDS: Readonly<Record<Region, QuantityKey>> = {
  "catching glove": "goalie.holds_in_glove",
  blocker: "goalie.holds_at_blocker",
  stick: "goalie.holds_elsewhere",
  "left pad": "goalie.holds_at_pads",
  "right pad": "goalie.holds_at_pads",
  body: "goalie.holds_at_body",
  arms: "goalie.holds_in_arms",
  mask: "goalie.holds_elsewhere",
  skates: "goalie.holds_elsewhere",
}

/** What the goalie of these settings makes of rebounds. [CONTROL_LENGTH] */
export function controlNumbers(settings: Settings): Float64Array {
  const q = settings.quantities
  const control = new Float64Array(R.CONTROL_LENGTH)
  for (const [i, region] of REGIONS.entries()) control[R.HOLDS + i] = q[HOLDS[region]]
  control[R.FRICTION] = q["goalie.gear_friction"]
  control[R.SCATTER] = q["goalie.rebound_scatter"]
  control[R.COVERS_WITHIN] = q["goalie.covers_within"]
  control[R.COVERS_AFTER] = q["goalie.covers_after"]
  control[R.COVERS_SPREAD] = q["goalie.covers_spread"]
  control[R.RECOVERS] = q["goalie.recovery_time"]
  return control
}
