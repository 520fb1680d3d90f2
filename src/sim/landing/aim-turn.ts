import { invertNormal } from "../random/normal.ts"
import * as S from "../strata.ts"
import type { Radians } from "../units.ts"

/**
 * How a stratum's aimed point and its error of aim add up, across or up. The aimed coordinate comes from a standard normal
 * (its cumulative probability where it is uniform), the error from another. Turned by the angle whose tangent is the ratio
 * of their spreads, the two are another pair of independent standard normals, and the first of these says nearly alone
 * where the shot lands: at `middle` and so many times `spread` beside it, as an angle from where it is taken.
 */
export interface AimTurn {
  readonly middle: Radians
  /** At least {@link LEAST_SPREAD}, so that a point without an error lies between two cuts. */
  readonly spread: Radians
  /** Of the turn; the cosine goes with the aimed point and is negative where its angle falls. */
  readonly cosine: number
  readonly sine: number
}

const LEAST_SPREAD: Radians = 1e-9
/** Uniforms of a normal at one standard deviation above and below its mean. */
const ONE_ABOVE = 0.8413447460685429
const ONE_BELOW = 1 - ONE_ABOVE

/** Across; angles as the error in azimuth counts them, to the shooter's left. */
export function turnAcross(table: Float64Array, row: number): AimTurn {
  const [x, y] = middleOfPatch(table, row)
  const aim = aimedCoordinate(table, row, row + S.AIM)
  return turnOf((u) => Math.atan2(y - aim(u), x), table[row + S.ERROR_AZIMUTH]!)
}

/** Up. */
export function turnUp(table: Float64Array, row: number): AimTurn {
  const [x, y] = middleOfPatch(table, row)
  const run = Math.hypot(x, aimedCoordinate(table, row, row + S.AIM)(0.5) - y)
  const aim = aimedCoordinate(table, row, row + S.AIM + 2)
  const height = table[row + S.RELEASE_HEIGHT]!
  return turnOf((u) => Math.atan2(aim(u) - height, run), table[row + S.ERROR_ELEVATION]!)
}

function turnOf(angleOf: (u: number) => Radians, error: Radians): AimTurn {
  const slope = 0.5 * (angleOf(ONE_ABOVE) - angleOf(ONE_BELOW))
  const spread = Math.hypot(slope, error)
  const middle = angleOf(0.5)
  if (!(spread > LEAST_SPREAD)) return { middle, spread: LEAST_SPREAD, cosine: 1, sine: 0 }
  return { middle, spread, cosine: slope / spread, sine: error / spread }
}

/** Middle of the patch of ice that a stratum's shots leave from. */
function middleOfPatch(table: Float64Array, row: number): readonly [x: number, y: number] {
  const o = row + S.ORIGIN
  if (table[row + S.ORIGIN_KIND] === S.WEDGE) {
    const r = 0.5 * (table[o]! + table[o + 1]!)
    const angle = 0.5 * (table[o + 2]! + table[o + 3]!)
    return [r * Math.cos(angle), r * Math.sin(angle)]
  }
  return [(table[o]! + table[o + 2]! + table[o + 4]!) / 3, (table[o + 1]! + table[o + 3]! + table[o + 5]!) / 3]
}

/** One coordinate of the aimed point by its uniform: between two ends, or normal. */
function aimedCoordinate(table: Float64Array, row: number, at: number): (u: number) => number {
  const [first, second] = [table[at]!, table[at + 1]!]
  if (table[row + S.AIM_KIND] === S.AIM_NORMAL) return (u) => first + second * invertNormal(u)
  return (u) => first + u * (second - first)
}
