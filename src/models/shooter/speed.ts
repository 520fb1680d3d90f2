import type { Metres, MetresPerSecond, Seconds } from "../../sim/units.ts"
import type { Quantity } from "../parameter.ts"
import type { QuantityKey, Settings } from "../settings.ts"
import { levelOf } from "./levels.ts"
import { shotTypeOf } from "./shot-types.ts"

/** Speed from shot to shot: normal, cut at 3 sd, never below `least`. */
export interface ShotSpeed {
  readonly mean: MetresPerSecond
  readonly sd: MetresPerSecond
  readonly least: MetresPerSecond
  /** Mean over what is usual for this type, level and distance: faster shots stray more. */
  readonly effort: number
}

/** Distances that the speeds of shots by distance are stated for: middles of the prevailing ranges; straight lines between. */
export const SPEED_KNOTS: readonly { readonly distance: Quantity; readonly key: QuantityKey }[] = [
  { distance: knot(3.5, 3, 4), key: "shooter.speed_in_tight" },
  { distance: knot(5.5, 5, 6), key: "shooter.speed_low_slot" },
  { distance: knot(9, 8, 10), key: "shooter.speed_slot" },
  { distance: knot(13.5, 12.5, 14.5), key: "shooter.speed_high_slot" },
  { distance: knot(17, 16, 18), key: "shooter.speed_point" },
]

function knot(value: Metres, low: Metres, high: Metres): Quantity {
  const why = "Where the speed of shots by distance is stated"
  return { dimension: "length", unit: "m", value, low, high, least: 0, most: 60, source: "assumption", why }
}

/** Mean speed of a professional's usual mix of shots from this far out. */
export function speedByDistance(settings: Settings, distance: Metres): MetresPerSecond {
  let before = SPEED_KNOTS[0]!
  for (const next of SPEED_KNOTS) {
    if (distance < next.distance.value) {
      const from = settings.quantities[before.key]
      // nearer than the first
      if (next === before) return from
      const along = (distance - before.distance.value) / (next.distance.value - before.distance.value)
      return from + along * (settings.quantities[next.key] - from)
    }
    before = next
  }
  // farther than the last
  return settings.quantities[before.key]
}

/** The speed of a shot from this far out, by the settings' type and level unless they state a speed. */
export function shotSpeed(settings: Settings, distance: Metres): ShotSpeed {
  const q = settings.quantities
  const type = shotTypeOf(settings.choices["shooter.shot"])
  const professional = type?.speed.value ?? speedByDistance(settings, distance)
  const usual = professional * levelOf(settings.choices["shooter.level"]).speedFactor.value
  // a stated speed already is the level's own
  const stated = q["shooter.speed"]
  const mean = (Number.isNaN(stated) ? usual : stated) * q["shooter.speed_factor"]
  const spread = type === undefined ? q["shooter.speed_spread"] : type.speedSd.value / type.speed.value
  const statedSd = q["shooter.speed_sd"]
  const sd = Number.isNaN(statedSd) ? spread * mean : statedSd
  return { mean, sd, least: q["shooter.speed_least"], effort: mean / usual }
}

/** How long before release the shot can be read; comes off the goalie's reaction. */
export function earlyRead(settings: Settings): Seconds {
  const type = shotTypeOf(settings.choices["shooter.shot"])
  const level = levelOf(settings.choices["shooter.level"])
  return settings.quantities["shooter.early_read"] * (type?.readFactor.value ?? 1) * level.readFactor.value
}

/** From the first visible movement of the stick to the release; shots by distance take a wrist shot's time. */
export function releaseTime(settings: Settings): Seconds {
  const stated = settings.quantities["shooter.release_time"]
  if (!Number.isNaN(stated)) return stated
  const shot = settings.choices["shooter.shot"]
  return shotTypeOf(shot === "by distance" ? "wrist" : shot)!.releaseTime.value
}
