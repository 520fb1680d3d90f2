import {
  BOX_H,
  BOX_Q,
  BOX_UP,
  BOX_W,
  CHANGE,
} from "../sim/box-record.ts"
import { DISC_HALF, DISC_RADIUS, HAND, HAND_ACROSS, HAND_START, HAND_UP } from "../sim/compiled/layout.ts"
import { distanceStill } from "./still-disc.ts"
import { keep, NUMBER, recorded } from "./tables.ts"

/** The same as in sim/swept-disc.ts. */
const EXACTLY: f64 = 5e-10
const MUCH: f64 = 1e-9
const FLAT: f64 = 1e-6
const ALONG: f64 = 1e-9
const STEEP: f64 = 1e6
const MOST_PLACES: i32 = 200

/** Puts path and box in hand where the search finds them. */
export function setRecord(
  q0: f64, q1: f64, q2: f64, w0: f64, w1: f64, w2: f64, u0: f64, u1: f64, u2: f64, h0: f64, h1: f64, h2: f64,
): void {
  keep(BOX_Q, q0)
  keep(BOX_Q + 1, q1)
  keep(BOX_Q + 2, q2)
  keep(BOX_W, w0)
  keep(BOX_W + 1, w1)
  keep(BOX_W + 2, w2)
  keep(BOX_UP, u0)
  keep(BOX_UP + 1, u1)
  keep(BOX_UP + 2, u2)
  keep(BOX_H, h0)
  keep(BOX_H + 1, h1)
  keep(BOX_H + 2, h2)
}

/** Distance of the path in the record from its box, ends and all, see sim/swept-disc.ts; `found` is what the plane says. */
export function distanceInSpace(
  found: f64, x: f64, y: f64, tilt: f64, long: f64, middle: f64, least: f64, most: f64,
): f64 {
  let s = min(most, max(least, middle))
  if (found > 0) {
    s = placeBeyond(x, y, tilt, long, middle, least, most)
    if (isNaN(s)) return found
  }
  const seen = found - (tilt > 0 ? 0 : FLAT * load<f64>(DISC_RADIUS))
  let before = -Infinity
  let past = Infinity
  let nearest: f64 = 0
  for (let tried = 0; tried < MOST_PLACES; tried++) {
    nearest = distanceStill(s)
    const change = recorded(CHANGE)
    const room = change < 0 ? min(past, most) - s : s - max(before, least)
    if (nearest <= seen + EXACTLY || abs(change) * room <= EXACTLY) break
    if (change < 0) before = s
    else past = s
    const next = min(most, max(least, s - (nearest - seen) / change))
    s = next > before && next < past ? next : 0.5 * (before + past)
  }
  return nearest
}

/** Where the search along the path begins; NaN where all places of contact lie between its ends, see sim/swept-disc.ts. */
function placeBeyond(x: f64, y: f64, tilt: f64, long: f64, middle: f64, least: f64, most: f64): f64 {
  const rise = sqrt(tilt * long)
  const climbs =
    recorded(BOX_UP) * recorded(BOX_W) + recorded(BOX_UP + 1) * recorded(BOX_W + 1) + recorded(BOX_UP + 2) * recorded(BOX_W + 2)
  const signed = climbs > 0 ? rise : -rise
  const startC = load<f64>(HAND + HAND_START)
  const startS = load<f64>(HAND + HAND_START, NUMBER)
  const unit = 1 / sqrt(startC * startC + startS * startS)
  const c = startC * unit
  const s = startS * unit
  const radius = load<f64>(DISC_RADIUS)
  const half = load<f64>(DISC_HALF)

  let at: f64 = 0
  let either: f64 = 0
  let short = c * y - s * x
  let squares = 0
  let forward: f64 = 0
  let sideways: f64 = 0
  for (let i = 0; i < 4; i++) {
    const a = load<f64>(HAND + HAND_ACROSS + i * NUMBER)
    const b = load<f64>(HAND + HAND_UP + i * NUMBER)
    const far = c * a + s * b
    const along = i < 3 ? recorded(BOX_H + i) * recorded(BOX_W + i) : half * signed
    const aside = c * b - s * a
    if (abs(far) > ALONG) {
      at += far > 0 ? along : -along
      short -= far > 0 ? aside : -aside
    } else if (along != 0 || aside != 0) {
      either += abs(along)
      squares += along * along > STEEP * long * aside * aside ? 2 : 1
      forward = along
      sideways = aside
    }
  }
  const up = s * sqrt(max(0, 1 - tilt))
  const level = sqrt(max(0, 1 - up * up))
  if (level < FLAT) either += radius * sqrt(long)
  else {
    at -= (radius * up * signed) / level
    short -= (radius * (tilt - 1) * c * s) / level
    if (squares == 1 && tilt > 0) {
      const share = short / sideways
      at += (share > 1 ? 1 : share < -1 ? -1 : share) * forward
      either = 0
    }
  }
  const much = MUCH * sqrt(long)
  if (at - either + much >= (least - middle) * long && at + either - much <= (most - middle) * long) return NaN
  return min(most, max(least, middle + at / long))
}
