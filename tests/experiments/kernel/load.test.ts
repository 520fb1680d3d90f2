import { afterEach, describe, expect, test, vi } from "vitest"
import { instantiateKernel } from "../../../src/experiments/kernel/instantiate.ts"
import { KERNEL_VARIABLE, loadKernel } from "../../../src/experiments/kernel/load.ts"
import { openPool } from "../../../src/experiments/run/pool.ts"
import { taskRunner } from "../../../src/experiments/run/tasks.ts"
import { defaultSettings } from "../../../src/models/settings.ts"
import { INDEPENDENT_DRAWS } from "../../../src/sim/sampler.ts"

const SETUP = { groups: [[defaultSettings()]], key: [1, 2], batch: 16, sampler: INDEPENDENT_DRAWS } as const

afterEach(() => {
  vi.unstubAllEnvs()
  vi.unstubAllGlobals()
})

describe("a thread's kernel", () => {
  // seen to fail: taskRunner without it
  test("is the compiled one, made once for all its tasks", () => {
    vi.stubEnv(KERNEL_VARIABLE, undefined)
    expect(taskRunner(SETUP).compiled).not.toBeNull()
  })

  // seen to fail: the variable not read
  test("is the one in TypeScript where the environment asks for it", () => {
    vi.stubEnv(KERNEL_VARIABLE, "typescript")
    expect(taskRunner(SETUP).compiled).toBeNull()
  })

  // seen to fail: with the word looked at by the threads alone, whose error ended the process with a trace
  test("is not guessed from a word that names none, and threads are not started then", async () => {
    vi.stubEnv(KERNEL_VARIABLE, "fastest")
    const rule = `Cannot choose a kernel as ${KERNEL_VARIABLE} must be compiled or typescript`
    const message = `${rule}: current value is fastest (unset the variable for the usual one)`
    expect(loadKernel).toThrow(new RangeError(message))
    await expect(openPool(SETUP, 2)).rejects.toThrow(new RangeError(message))
  })

  // seen to fail: without the check that the engine knows the instructions
  test("is the one in TypeScript where the compiled one cannot run", () => {
    expect(instantiateKernel(Uint8Array.of(0, 97, 115, 109, 9, 0, 0, 0))).toBeNull()
    vi.stubGlobal("WebAssembly", undefined)
    expect(loadKernel()).toBeNull()
  })
})
