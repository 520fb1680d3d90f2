import { type CompiledCode, type CompiledKernel, compiledKernel, HOST } from "../../sim/compiled/kernel.ts"

/** What of the engine's WebAssembly is used here. */
declare namespace WebAssembly {
  class Module {
    constructor(bytes: Uint8Array)
  }
  class Instance {
    constructor(module: Module, imports: Readonly<Record<string, Readonly<Record<string, unknown>>>>)
    readonly exports: unknown
  }
  function validate(bytes: Uint8Array): boolean
}

/**
 * The compiled kernel from its bytes, `kernel.wasm` of a build, however they were come by: read from disk or fetched by a
 * page. Null where there is no WebAssembly, or none that knows the kernel's instructions.
 */
export function instantiateKernel(bytes: Uint8Array): CompiledKernel | null {
  if (typeof WebAssembly === "undefined" || !WebAssembly.validate(bytes)) return null
  const { exports } = new WebAssembly.Instance(new WebAssembly.Module(bytes), { host: HOST })
  return compiledKernel(exports as CompiledCode)
}
