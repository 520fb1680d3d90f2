import type { SeedKey } from "../../sim/random/streams.ts"
import { planShots } from "../../sim/sampling.ts"
import { type SensitivityBootstrap, sensitivityIndices, totalDifference } from "../../sim/statistics/sensitivity.ts"
import { sensitivityDesign } from "../../sim/statistics/sensitivity-design.ts"
import type { Experiment, SensitivityAsked } from "../experiment.ts"
import type { Group } from "../run/groups.ts"
import { CONFIDENCE } from "../run/intervals.ts"
import type { Pool } from "../run/pool.ts"
import type { QuantityEffect, SensitivityFinding } from "./finding.ts"
import { gainsOf } from "./gains.ts"
import { type Asked, changesOf, drawnAgain, rowSums, sharesUnder, valuesOf, type Watch } from "./values.ts"

/** Resamples of points and replicates behind each interval. */
const RESAMPLES = 500
/** Replicate of the design: replicate 0 spreads the points of a file's own design. */
const DESIGN_REPLICATE = 1

/**
 * Finds what a measure hangs on at the baseline: every quantity varied at once over its range, the same shots for every
 * value. Null when interrupted.
 */
export async function findSensitivity(
  experiment: Experiment,
  asked: SensitivityAsked,
  groups: readonly Group[],
  pool: Pool,
  key: SeedKey,
  watch: Watch,
): Promise<SensitivityFinding | null> {
  const { ranges, sets, of } = asked
  const group = groups.findIndex(({ points }) => points.includes(experiment.baseline))
  const at: Asked = { group, pose: groups[group]!.points.indexOf(experiment.baseline), measure: of, shots: asked.shots }
  const design = sensitivityDesign(key, DESIGN_REPLICATE, sets, ranges.length)
  const shares = await sharesUnder(changesOf(design, ranges), at, pool, watch)
  if (shares === null) return null
  const sums = rowSums(shares)
  const bootstrap: SensitivityBootstrap = {
    key,
    resamples: RESAMPLES,
    confidence: CONFIDENCE,
    n: design.rows * planShots(asked.shots).shots,
    redrawn: (resample) => valuesOf(sums, drawnAgain(key, resample, sums.replicates)),
  }
  const indices = sensitivityIndices(design, valuesOf(sums, new Float64Array(sums.replicates).fill(1)), bootstrap)
  const order = ranges
    .map((_, q) => q)
    .sort((a, b) => rank(indices.total[b]!.mean) - rank(indices.total[a]!.mean) || a - b)
  // among all that is assumed, what practice brings is another question
  const trained = asked.over === "assumptions" ? [] : ranges
  const gains = await gainsOf(experiment, trained, at, pool, watch)
  if (gains === null) return null
  const effects = order.map((q, place): QuantityEffect => {
    const behind = place === 0 ? null : totalDifference(indices, order[0]!, q, bootstrap)
    return { ...ranges[q]!, first: indices.first[q]!, total: indices.total[q]!, behind, gain: gains.list[q] ?? null }
  })
  return {
    of,
    over: asked.over,
    sets,
    values: design.rows,
    shots: planShots(asked.shots).shots,
    gainShots: gains.shots,
    mean: indices.mean,
    deviation: Math.sqrt(indices.variance),
    effects,
  }
}

/** An index that is not a number stands last. */
function rank(total: number): number {
  return Number.isNaN(total) ? -1 : total
}
