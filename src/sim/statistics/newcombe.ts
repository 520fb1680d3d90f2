import type { Estimate } from "../estimate.ts"
import type { Probability } from "../units.ts"
import { wilson } from "./wilson.ts"

/**
 * Difference of two shares, A less B, from independent unweighted counts: Newcombe's hybrid score interval. Each end
 * takes the reach of Wilson's interval of either share toward that end, added as squares.
 * R. G. Newcombe, Statistics in Medicine 17 (1998), 873-890, method 10.
 */
export function newcombeDifference(
  successesA: number,
  trialsA: number,
  successesB: number,
  trialsB: number,
  confidence: Probability,
): Estimate {
  return hybridDifference(
    wilson(successesA, trialsA, confidence),
    wilson(successesB, trialsB, confidence),
    trialsA + trialsB,
    "Newcombe hybrid score",
  )
}

/** Difference of two shares whose estimates are taken as independent, from their own intervals. */
export function hybridDifference(a: Estimate, b: Estimate, n: number, method: string): Estimate {
  const mean = a.mean - b.mean
  const standardError = Math.hypot(a.standardError, b.standardError)
  // nothing seen on one side leaves every difference open
  const unknown = Number.isNaN(mean)
  const low = unknown ? -1 : Math.max(-1, mean - Math.hypot(a.mean - a.low, b.high - b.mean))
  const high = unknown ? 1 : Math.min(1, mean + Math.hypot(a.high - a.mean, b.mean - b.low))
  return { n, mean, standardError, low, high, confidence: a.confidence, method }
}
