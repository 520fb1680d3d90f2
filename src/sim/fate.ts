/** What becomes of a shot when no goalie is in the way; a code in a Uint8Array. */

/** Crosses the goal line's plane outside the iron, or never comes near it. */
export const MISS = 0
/** Clears all iron between the posts under the bar. */
export const ON_GOAL = 1
/** Touches iron and does not go in. */
export const IRON_OUT = 2
/** Touches iron and goes in. */
export const IRON_IN = 3
/** Stops on the ice before the goal line. */
export const SHORT = 4
/** Stopped on its way by someone other than the goalie. */
export const BLOCKED = 5
/** The play ends before anyone shoots: a pass is missed or cut off. */
export const NO_SHOT = 6

/** Whether the goalie has to stop it: it would be a goal with nobody there. */
export function isOnGoal(fate: number): boolean {
  return fate === ON_GOAL || fate === IRON_IN
}

/** Names of the fates in the order of their codes, as results print them. */
export const FATES = ["miss", "on goal", "iron, out", "iron, in", "short", "blocked", "no shot"] as const
export type Fate = (typeof FATES)[number]
