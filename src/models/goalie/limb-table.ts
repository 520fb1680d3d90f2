import {
  CATCH_RADIUS,
  ERROR_PER_SPEED,
  ERROR_STEADY,
  GREATEST_V,
  LAG,
  LEAST_V,
  LIMB_STRIDE,
  LIMBS,
  type Limb,
  LONGEST_REACH,
  PEAK_ACCELERATION,
  PEAK_SPEED,
  ROOT_LENGTH,
  UNSET_FACTOR,
} from "../../sim/parts.ts"
import type { Settings } from "../settings.ts"
import type { BodySize } from "./body-size.ts"
import type { Side } from "./leg.ts"

/** What one limb can do; the columns of its row by name. */
type LimbRow = Readonly<Record<string, number>>

/** [LIMBS.length x LIMB_STRIDE] what each limb can do. `catching` is the side of the catching glove. */
export function limbTable(settings: Settings, body: BodySize, catching: Side): Float64Array {
  const q = settings.quantities
  const crossing = q["goalie.hand_crossing"]
  const rows: Readonly<Record<Limb, LimbRow>> = {
    "glove hand": { ...handRow(settings, body), radius: q["goalie.glove_catch_radius"], ...sideOf(catching, crossing) },
    "blocker hand": {
      ...handRow(settings, body),
      radius: q["goalie.blocker_catch_radius"],
      ...sideOf(catching === 1 ? -1 : 1, crossing),
    },
    stick: {
      radius: q["goalie.stick_catch_radius"],
      reach: q["goalie.stick_reach"],
      speed: q["goalie.stick_speed"],
      acceleration: q["goalie.stick_acceleration"],
    },
    "left leg": { ...legRow(settings), least: 0 },
    "right leg": { ...legRow(settings), greatest: 0 },
    trunk: {
      radius: q["goalie.trunk_catch_radius"],
      reach: q["goalie.lean_reach"],
      speed: q["goalie.lean_speed"],
      acceleration: q["goalie.lean_acceleration"],
    },
  }
  const table = new Float64Array(LIMBS.length * LIMB_STRIDE)
  LIMBS.forEach((limb, index) => {
    writeRow(table, index * LIMB_STRIDE, rows[limb], settings)
  })
  return table
}

function writeRow(table: Float64Array, at: number, row: LimbRow, settings: Settings): void {
  const q = settings.quantities
  table[at + CATCH_RADIUS] = row.radius!
  table[at + LONGEST_REACH] = row.reach!
  table[at + PEAK_SPEED] = row.speed!
  table[at + PEAK_ACCELERATION] = row.acceleration!
  table[at + LAG] = row.lag ?? 0
  table[at + ERROR_STEADY] = q["goalie.hand_error"]
  table[at + ERROR_PER_SPEED] = q["goalie.hand_error_time"]
  table[at + LEAST_V] = row.least ?? Number.NEGATIVE_INFINITY
  table[at + GREATEST_V] = row.greatest ?? Number.POSITIVE_INFINITY
  table[at + ROOT_LENGTH] = row.root ?? Number.POSITIVE_INFINITY
  table[at + UNSET_FACTOR] = q["goalie.unset_reach"]
}

/** A hand: the shoulder holds it by the share of the arm's length that padding leaves. */
function handRow(settings: Settings, body: BodySize): LimbRow {
  const q = settings.quantities
  const root = q["goalie.arm_share"] * body.arm
  return {
    reach: 2 * root,
    speed: q["goalie.arm_speed"],
    acceleration: q["goalie.arm_acceleration"],
    root,
  }
}

function legRow(settings: Settings): LimbRow {
  const q = settings.quantities
  return {
    radius: q["goalie.leg_catch_radius"],
    reach: q["goalie.kick_reach"],
    speed: q["goalie.kick_speed"],
    acceleration: q["goalie.kick_acceleration"],
    lag: q["goalie.kick_lag"],
  }
}

/** A hand stays on its own side of the body but for `crossing`: it does not pass through the trunk. */
function sideOf(side: Side, crossing: number): LimbRow {
  return side === 1 ? { least: -crossing } : { greatest: crossing }
}
