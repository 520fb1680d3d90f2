import { beforeAll, describe, expect, test } from "vitest"
import { inOrder } from "../../../src/experiments/run/in-order.ts"
import {
  ASSUMED,
  bytesOf,
  checkpointIn,
  interruptedAfter,
  northlake,
  ownFolder,
  run,
  seededNumbers,
} from "./unfinished-run.ts"

const place = ownFolder()
let undisturbed = ""
beforeAll(async () => {
  undisturbed = bytesOf(await run({}))
})

describe("a run that is interrupted", () => {
  // seen to fail: stopped in the middle of a replicate, so that one group had shots that the other had not
  test.each([...new Set(seededNumbers("stops", 3, 20, 110))])(
    "after %i tasks gives the results of what is done, says so, and carries on to the same bytes",
    async (after) => {
      const folder = place(`stopped-${after}`)
      const results = await run({ checkpoint: await checkpointIn(folder), ...interruptedAfter(after) })
      expect(results.stoppedBy).toBe("interrupted")
      expect(results.warnings[0]!.kind).toBe("Interrupted")
      expect(results.warnings[0]!.text).toContain(`${results.shots} of at most 1,024 shots`)
      expect(results.shots).toBe(results.replicates < 32 ? 16 * results.replicates : 16 * Math.ceil(after / 2))
      expect(bytesOf(await run({ checkpoint: await checkpointIn(folder), workers: 2 }))).toBe(undisturbed)
    },
  )

  test("at once still fires some replicates of every point, so that there is a spread to tell", async () => {
    const results = await run(interruptedAfter(1))
    expect(results).toMatchObject({ stoppedBy: "interrupted", replicates: 8, shots: 8 * 16 })
    for (const { estimates } of results.points) expect(estimates.save_rate!.n).toBe(8 * 16)
  })

  test("among the sets of the assumption range, or what it hangs on, carries on from those that are done", async () => {
    const asked = northlake({}, ASSUMED)
    const whole = bytesOf(await run({ assumptions: true, workers: 2 }, asked))
    const folder = place("sets")
    // 32 tasks of shots and 65 sets come before the values of the sensitivity, of which 64 are found
    for (const after of [32 + 30, 35 + 64]) {
      const checkpoint = await checkpointIn(folder, {}, asked)
      const stopped = await run({ checkpoint, assumptions: true, ...interruptedAfter(after) }, asked)
      expect(stopped).toMatchObject({ stoppedBy: "interrupted", shots: 512 })
      expect(stopped.sensitivity).toBeUndefined()
    }
    const checkpoint = await checkpointIn(folder, {}, asked)
    // 65 sets of one point: a save rate and goals of each, of all shots and of either half
    expect(checkpoint.found("assumptions", 390)!.state.merged).toBe(65)
    expect(checkpoint.found("sensitivity")!.state.known).toBe(64)
    let shots = 0
    const counted = (_: number, stage: string) => {
      if (stage !== "sensitivity") shots++
    }
    const carried = await run({ checkpoint, assumptions: true, workers: 2, onProgress: counted }, asked)
    expect(shots).toBe(0)
    expect(bytesOf(carried)).toBe(whole)
  })
})

describe("inOrder()", () => {
  /** Tasks that end when told to, in an order of their own. */
  async function watched(ahead: number, stopAt = Infinity) {
    const seen = { taken: [] as number[], most: 0, waiting: 0 }
    const delays = seededNumbers("order", 40, 0, 4)
    const tasks = Array.from({ length: 40 }, (_, i) => i)
    const all = await inOrder(tasks, {
      ahead,
      async run(task) {
        seen.most = Math.max(seen.most, ++seen.waiting)
        await new Promise((resolve) => setTimeout(resolve, delays[task]))
        return 10 * task
      },
      take(task, answer) {
        seen.waiting--
        expect(answer).toBe(10 * task)
        seen.taken.push(task)
      },
      stop: (next) => next >= stopAt,
    })
    return { ...seen, all }
  }

  // seen to fail: all tasks started at once
  test("takes answers in the order of their tasks and never has more in hand than it may", async () => {
    const { taken, most, all } = await watched(8)
    expect(taken).toEqual(Array.from({ length: 40 }, (_, i) => i))
    expect(most).toBe(8)
    expect(all).toBe(true)
  })

  test("takes what is in hand when it is stopped, and starts nothing more", async () => {
    const { taken, all } = await watched(4, 17)
    expect(taken).toEqual(Array.from({ length: 17 }, (_, i) => i))
    expect(all).toBe(false)
  })

  test("throws the error of the first task that has one", async () => {
    const failing = inOrder([1, 2, 3, 4], {
      ahead: 4,
      run: async (task) => {
        if (task >= 2) throw new Error(`task ${task}`)
        return task
      },
      take: () => undefined,
      stop: () => false,
    })
    await expect(failing).rejects.toThrow("task 2")
  })
})
