import * as boxColumns from "./box-record.ts"
import { distanceStill } from "./still-disc.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { BOX_W, BOX_UP, BOX_H, BOX_LEAST, BOX_MOST, DISC_RADIUS, DISC_HALF } = boxColumns
const { PLANE_X, PLANE_Y, PLANE_A, PLANE_B, PLANE_TILT, PLANE_NEAREST, PATH_LONG, PATH_MIDDLE } = boxColumns
const { START_C, START_S, PLACE, CHANGE } = boxColumns

/**
 * Distance between the core box and a puck whose path may end before it is closest (see rounded-box.ts). What the plane says
 * holds where box and disc touch between the ends of the path. Otherwise the place on the path is sought where they are
 * closest, which is nearly always its end. The distance of a disc that stands still (`still-disc.ts`) has no dents along the
 * path: it changes no faster farther on than here, so that
 *
 *   next place  s - (distance(s) - what the plane says) / change(s)
 *
 * is never past the one sought, and what lies on the far side of a place tried is no closer.
 */

/** Known to this, m; twice that with the disc's own. */
const EXACTLY = 5e-10
/** What touches between the ends by this much more or less, m, does. */
const MUCH = 1e-9
/** The same for where a contact lies along the path, as a sine. */
const FLAT = 1e-6
/** A segment that reaches less far than this, m, in the direction of the distance is square to it. */
const ALONG = 1e-9
/** A segment so nearly along the path does not tell where on it the contact is: a squared tangent. */
const STEEP = 1e6
/** Halving the longest path so often leaves nothing. */
const MOST_PLACES = 200

/** Puts PLANE_NEAREST right for the ends of the path in `row`. */
export function distanceInSpace(box: Float64Array, row: Float64Array): void {
  if (touchesBetweenEnds(box, row)) return
  // at least, as the rim may show where the path is taken to be level
  const seen = box[PLANE_NEAREST]! - (box[PLANE_TILT]! > 0 ? 0 : FLAT * box[DISC_RADIUS]!)
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  // places tried on either side of the one sought
  let before = Number.NEGATIVE_INFINITY
  let past = Number.POSITIVE_INFINITY
  for (let tried = 0; tried < MOST_PLACES; tried++) {
    distanceStill(box, row)
    const s = box[PLACE]!
    const nearest = box[PLANE_NEAREST]!
    const change = box[CHANGE]!
    const room = change < 0 ? Math.min(past, most) - s : s - Math.max(before, least)
    if (nearest <= seen + EXACTLY || Math.abs(change) * room <= EXACTLY) return
    if (change < 0) before = s
    else past = s
    const next = Math.min(most, Math.max(least, s - (nearest - seen) / change))
    box[PLACE] = next > before && next < past ? next : 0.5 * (before + past)
  }
}

/**
 * Whether all places at which box and disc are closest, seen along the path, lie between its ends. Fills PLACE with the
 * middle of them, or with the end they lie beyond.
 */
function touchesBetweenEnds(box: Float64Array, row: Float64Array): boolean {
  const middle = box[PATH_MIDDLE]!
  const least = box[BOX_LEAST]!
  const most = box[BOX_MOST]!
  box[PLACE] = Math.min(most, Math.max(least, middle))
  if (!(box[PLANE_NEAREST]! > 0)) return false
  const long = box[PATH_LONG]!
  const tilt = box[PLANE_TILT]!
  const rise = Math.sqrt(tilt * long)
  const climbs = row[BOX_UP]! * row[BOX_W]! + row[BOX_UP + 1]! * row[BOX_W + 1]! + row[BOX_UP + 2]! * row[BOX_W + 2]!
  const signed = climbs > 0 ? rise : -rise
  const unit = 1 / Math.sqrt(box[START_C]! * box[START_C]! + box[START_S]! * box[START_S]!)
  const c = box[START_C]! * unit
  const s = box[START_S]! * unit

  // the corner that lies farthest, as it lies along the path, give or take, and how far it falls short of the puck sideways
  let at = 0
  let either = 0
  let short = c * box[PLANE_Y]! - s * box[PLANE_X]!
  // a segment that is square to the contact: both ends lie farthest
  let squares = 0
  let forward = 0
  let sideways = 0
  for (let i = 0; i < 4; i++) {
    const a = box[PLANE_A + i]!
    const b = box[PLANE_B + i]!
    const far = c * a + s * b
    const along = i < 3 ? box[BOX_H + i]! * row[BOX_W + i]! : box[DISC_HALF]! * signed
    const aside = c * b - s * a
    if (Math.abs(far) > ALONG) {
      at += far > 0 ? along : -along
      short -= far > 0 ? aside : -aside
    } else if (along !== 0 || aside !== 0) {
      either += Math.abs(along)
      squares += along * along > STEEP * long * aside * aside ? 2 : 1
      forward = along
      sideways = aside
    }
  }
  // the disc's rim; of a level path nothing is known sideways, as it is taken to be flat
  const up = s * Math.sqrt(Math.max(0, 1 - tilt))
  const level = Math.sqrt(Math.max(0, 1 - up * up))
  if (level < FLAT) either += box[DISC_RADIUS]! * Math.sqrt(long)
  else {
    at -= (box[DISC_RADIUS]! * up * signed) / level
    short -= (box[DISC_RADIUS]! * (tilt - 1) * c * s) / level
    if (squares === 1 && tilt > 0) {
      const share = short / sideways
      at += (share > 1 ? 1 : share < -1 ? -1 : share) * forward
      either = 0
    }
  }
  const much = MUCH * Math.sqrt(long)
  if (at - either + much >= (least - middle) * long && at + either - much <= (most - middle) * long) return true
  box[PLACE] = Math.min(most, Math.max(least, middle + at / long))
  return false
}
