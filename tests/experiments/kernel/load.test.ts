import { afterEach, describe, expect, test, vi } from "vitest"
import { instantiateKernel } from "../../../src/experiments/kernel/instantiate.ts"
import { KERNEL_VARIABLE, loadKernel } from "../../../src/experiments/kernel/load.ts"
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

  test("is not guessed from a word that names none", () => {
    vi.stubEnv(KERNEL_VARIABLE, "fastest")
    expect(loadKernel).toThrow(
      `Cannot choose a kernel as ${KERNEL_VARIABLE} must be compiled or typescript: current value is fastest`,
    )
  })

  // seen to fail: without the check that the engine knows the instructions
  test("is the one in TypeScript where the compiled one cannot run", () => {
    expect(instantiateKernel(Uint8Array.of(0, 97, 115, 109, 9, 0, 0, 0))).toBeNull()
    vi.stubGlobal("WebAssembly", undefined)
    expect(loadKernel()).toBeNull()
  })
})
