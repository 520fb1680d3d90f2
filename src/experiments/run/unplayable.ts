import { compileScene } from "../../models/plays/scene.ts"
import type { Experiment } from "../experiment.ts"
import { groupPoints } from "./groups.ts"

/**
 * Why a run of the experiment would end before its first shot: each setting may be what it is, and all of them cannot be
 * played together. Null where nothing stands in the way.
 */
export function whyUnplayable(experiment: Experiment): string | null {
  for (const { settings } of groupPoints(experiment.points)) {
    try {
      compileScene(settings)
    } catch (error) {
      if (error instanceof RangeError) return error.message
      throw error
    }
  }
  return null
}
