import { expect, test } from "vitest"
import type { Pool } from "../../../src/experiments/run/pool.ts"
import { sharesUnder } from "../../../src/experiments/sensitivity/values.ts"

const CHANGES = Array.from({ length: 300 }, (_, i) => ({ "goalie.depth": i }))
const ASKED = { group: 0, pose: 0, measure: "save_rate", shots: 512 }

/** A pool of two threads that answers each value with its place, later ones sooner than earlier ones. */
function countingPool(): { pool: Pool; asked: () => number } {
  let asked = 0
  const share: Pool["share"] = async ({ changes }) => {
    await new Promise((resolve) => setTimeout(resolve, asked++ % 3 === 0 ? 3 : 0))
    return { above: Float64Array.of(changes["goalie.depth"]!), below: Float64Array.of(1) }
  }
  return { pool: { workers: 2, share } as unknown as Pool, asked: () => asked }
}

test("sharesUnder() gives the values in order, whichever is found first", async () => {
  const shares = await sharesUnder(CHANGES, ASKED, countingPool().pool, {})
  expect(shares!.map(({ above }) => above[0])).toEqual(CHANGES.map((_, i) => i))
})

// seen to fail: sixty-four values asked for before an interruption was heard
test("sharesUnder() stops within the values that the threads have in hand", async () => {
  const { pool, asked } = countingPool()
  let stop = false
  const watch = {
    onProgress: (share: number) => {
      if (share * CHANGES.length >= 10) stop = true
    },
    interrupted: () => stop,
  }
  expect(await sharesUnder(CHANGES, ASKED, pool, watch)).toBeNull()
  expect(asked()).toBeLessThanOrEqual(10 + 4 * pool.workers)
})
