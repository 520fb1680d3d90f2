import { existsSync, readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import type { CompiledKernel } from "../../sim/compiled/kernel.ts"
import { instantiateKernel } from "./instantiate.ts"

/** Environment variable that says which kernel runs; results are the same to the last bit, speed is not. */
export const KERNEL_VARIABLE = "GOALMOUTH_KERNEL"
/** What it may say: the compiled one where there is WebAssembly, which is the default, or the one in TypeScript. */
const KERNELS = ["compiled", "typescript"]

/** The kernel that the environment asks for. Throws a RangeError when it names none: ask before threads are started. */
export function wantedKernel(): string {
  const wanted = process.env[KERNEL_VARIABLE] ?? "compiled"
  if (KERNELS.includes(wanted)) return wanted
  const rule = `Cannot choose a kernel as ${KERNEL_VARIABLE} must be ${KERNELS.join(" or ")}`
  throw new RangeError(`${rule}: current value is ${wanted} (unset the variable for the usual one)`)
}

/** The compiled kernel of this build for this thread; null where the kernel in TypeScript is to run. */
export function loadKernel(): CompiledKernel | null {
  const file = wantedKernel() === "compiled" ? kernelFile() : null
  return file === null ? null : instantiateKernel(readFileSync(file))
}

/** The kernel in the build this file is part of, or in dist when running from source. */
function kernelFile(): string | null {
  const beside = fileURLToPath(new URL("../../kernel.wasm", import.meta.url))
  if (existsSync(beside)) return beside
  const built = fileURLToPath(new URL("../../../dist/kernel.wasm", import.meta.url))
  return existsSync(built) ? built : null
}
