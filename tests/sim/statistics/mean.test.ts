import fc from "fast-check"
import { mean as referenceMean, sampleVariance as referenceVariance } from "simple-statistics"
import { describe, expect, test } from "vitest"
import { meanOverReplicates, sampleVariance } from "../../../src/sim/statistics/mean.ts"
import { invertStudentT } from "../../../src/sim/statistics/student-t.ts"

describe("meanOverReplicates()", () => {
  // seen red: variance over n; t with n degrees of freedom
  test("has the mean and standard error of an independent library, and Student's reach", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 64 }),
        (values) => {
          const estimate = meanOverReplicates(values, 1000, 0.95)
          const variance = referenceVariance(values)
          expect(estimate.mean).toBeCloseTo(referenceMean(values), 10)
          expect(sampleVariance(values, estimate.mean)).toBeCloseTo(variance, 8)
          const reach = invertStudentT(0.975, values.length - 1) * Math.sqrt(variance / values.length)
          expect(estimate.high - estimate.mean).toBeCloseTo(reach, 8)
          expect(estimate.mean - estimate.low).toBeCloseTo(reach, 8)
          expect([estimate.n, estimate.confidence]).toEqual([1000, 0.95])
        },
      ),
      { seed: 15, numRuns: 200 },
    )
  })

  test("a constant has no width, and a single replicate no estimate", () => {
    const { low, high } = meanOverReplicates([2, 2, 2], 3, 0.95)
    expect([low, high]).toEqual([2, 2])
    expect(() => meanOverReplicates([2], 3, 0.95)).toThrow(
      new RangeError("Cannot estimate a mean as replicates must be at least 2: current value is 1"),
    )
  })
})
