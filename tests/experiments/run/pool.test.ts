import { expect, test } from "vitest"
import { openPool } from "../../../src/experiments/run/pool.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import { INDEPENDENT_DRAWS } from "../../../src/sim/sampler.ts"

const SETUP = { groups: [[defaultSettings()]], key: [1, 2], batch: 64, sampler: INDEPENDENT_DRAWS } as const

// seen to fail: threads ended at once, which left answers without an owner in one closing of eleven
test("close() waits for the answers in hand, however far they are", async () => {
  for (let i = 0; i < 4; i++) {
    const pool = await openPool(SETUP, 2)
    const tasks = Array.from({ length: 6 }, (_, replicate) =>
      pool.batches({ group: 0, replicate, from: 0, to: 1, estimator: "conditional" }),
    )
    const answers = Promise.allSettled(tasks)
    await tasks[i]
    await pool.close()
    expect((await answers).map(({ status }) => status)).toEqual(tasks.map(() => "fulfilled"))
  }
})
