import { createRequire } from "node:module"

/** The parts of the jstat package that the tests use as an independent reference; it ships no types. */
interface Jstat {
  readonly normal: {
    cdf(x: number, mean: number, sd: number): number
    inv(p: number, mean: number, sd: number): number
  }
  readonly lognormal: {
    pdf(x: number, mean: number, sd: number): number
    cdf(x: number, mean: number, sd: number): number
  }
  readonly studentt: { cdf(x: number, freedom: number): number; inv(p: number, freedom: number): number }
  readonly beta: { cdf(x: number, a: number, b: number): number }
}

export const jstat: Jstat = createRequire(import.meta.url)("jstat")
