import { ZONES } from "../../sim/box/openings.ts"
import { REGIONS } from "../../sim/parts.ts"
import type { Sums } from "../../sim/tally.ts"
import * as T from "../../sim/tally.ts"
import { goalsInKey, SECOND_DELAYS, savesByKey } from "../measures.ts"
import { columnOf, less, sumOf } from "./columns.ts"

/** A share: numerator and denominator by replicate. */
export interface Share {
  readonly above: Float64Array
  readonly below: Float64Array
}

/** Goals over all attempts, those on the rebound included. */
export const ALL_GOALS = "all_goals"

/** The save rate of one pose at one spot as a ratio of sums. */
export function saveShareOf(tallies: readonly Sums[], pose: number, spot: number): Share {
  return { above: columnOf(tallies, pose, spot, T.SAVED), below: columnOf(tallies, pose, spot, T.ON_GOAL_SUM) }
}

/** Every sampled measure of one pose at one spot as a ratio of sums, by measure key. */
export function sharesOf(tallies: readonly Sums[], pose: number, spot: number): Readonly<Record<string, Share>> {
  const column = (index: number) => columnOf(tallies, pose, spot, index)
  const attempts = column(T.SHOTS_COUNTED)
  const onGoal = column(T.ON_GOAL_SUM)
  const saved = column(T.SAVED)
  const stood = column(T.STOOD)
  const iron = sumOf(column(T.IRON_OUT_SUM), column(T.IRON_IN_SUM))
  const shares: Record<string, Share> = {
    save_rate: { above: saved, below: onGoal },
    goal_rate: { above: less(onGoal, saved), below: attempts },
    on_goal_rate: { above: onGoal, below: attempts },
    miss_rate: { above: sumOf(column(T.MISSED), column(T.SHORT_SUM)), below: attempts },
    iron_rate: { above: iron, below: attempts },
    position_rate: { above: stood, below: onGoal },
    reach_rate: { above: less(saved, stood), below: onGoal },
    block_rate: { above: column(T.BLOCKS), below: onGoal },
    not_set_rate: { above: column(T.NOT_SET), below: onGoal },
    arrival_margin_s: { above: column(T.MARGIN_SUM), below: onGoal },
    lateral_travel_m: { above: column(T.TRAVEL_SUM), below: onGoal },
    unreachable_share: { above: column(T.UNREACHABLE), below: attempts },
  }
  // only plays with a pass that can be lost have such a column
  const noShot = column(T.NO_SHOT_SUM)
  if (noShot.some((sum) => sum > 0)) shares.no_shot_rate = { above: noShot, below: attempts }
  // only plays with someone between puck and goalie
  const seen = column(T.SEEN_SUM)
  const blocked = column(T.BLOCKED_SUM)
  if (seen.some((sum) => sum > 0) || blocked.some((sum) => sum > 0)) {
    shares.blocked_rate = { above: blocked, below: attempts }
    shares.tipped_rate = { above: column(T.TIPPED_SUM), below: onGoal }
    shares.hidden_share = { above: column(T.HIDDEN_SUM), below: onGoal }
    shares.sight_time_s = { above: seen, below: onGoal }
  }
  // no measure of its own: what goals saved are counted from
  shares[ALL_GOALS] = { above: less(onGoal, saved), below: attempts }
  // only where rebounds are played
  const seconds = column(T.SECOND_ON_GOAL)
  const loose = column(T.LOOSE)
  if (loose.some((sum) => sum > 0)) {
    shares.rebound_rate = { above: loose, below: saved }
    shares.second_shot_rate = { above: column(T.SECOND_SHOTS), below: saved }
    shares.second_goal_rate = { above: less(seconds, column(T.SECOND_SAVED)), below: attempts }
    shares[ALL_GOALS] = { above: sumOf(less(onGoal, saved), less(seconds, column(T.SECOND_SAVED))), below: attempts }
    shares.second_save_rate = { above: column(T.SECOND_SAVED), below: seconds }
    SECOND_DELAYS.forEach((key, i) => {
      const onGoalThen = column(T.SECOND_BY_DELAY + 2 * i)
      if (onGoalThen.some((sum) => sum > 0))
        shares[key] = { above: column(T.SECOND_BY_DELAY + 2 * i + 1), below: onGoalThen }
    })
  }
  REGIONS.forEach((region, i) => {
    shares[savesByKey(region)] = { above: column(T.BY_REGION + i), below: saved }
  })
  ZONES.forEach((zone, i) => {
    shares[goalsInKey(zone)] = { above: column(T.BY_ZONE + i), below: less(onGoal, saved) }
  })
  return shares
}
