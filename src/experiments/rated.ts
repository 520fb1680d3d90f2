import type { Experiment } from "./experiment.ts"
import { GOALS_SAVED } from "./measures.ts"

/** What a run is rated by: the save rate, or goals over all plays where the file lists those, or goals saved, first. */
export type Rated = "save_rate" | "goal_rate"

/**
 * The rate that best places, crossings and comparisons of an experiment speak of. Where a carrier chooses, or a pass may be
 * lost, shots on goal are no fixed number and the save rate alone does not tell which goalie lets in less.
 */
export function ratedBy({ measures }: Pick<Experiment, "measures">): Rated {
  return measures[0] === "goal_rate" || measures[0] === GOALS_SAVED ? "goal_rate" : "save_rate"
}

/** 1 where more is better, -1 where less is. */
export function signOf(rated: Rated): 1 | -1 {
  return rated === "goal_rate" ? -1 : 1
}
