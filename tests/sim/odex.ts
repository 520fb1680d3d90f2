import { createRequire } from "node:module"

interface Solver {
  absoluteTolerance: number
  relativeTolerance: number
  solve(f: (t: number, y: number[]) => number[], from: number, start: number[], to: number): { readonly y: number[] }
}

// loaded at run time: the package's own TypeScript source does not compile under this project's strictness
const odex = createRequire(import.meta.url)("odex") as { readonly Solver: new (length: number) => Solver }

/** State at `to` of dy/dt = f(t, y) by an extrapolation method that shares no code with the engine. */
export function extrapolate(f: (t: number, y: number[]) => number[], start: ArrayLike<number>, to: number): number[] {
  const solver = new odex.Solver(start.length)
  solver.absoluteTolerance = 1e-11
  solver.relativeTolerance = 1e-11
  return solver.solve(f, 0, Array.from(start), to).y
}
