import { setFlagsFromString } from "node:v8"

/**
 * The V8 this was measured with. It optimises a function on a thread of its own, again in every thread that calls it: a
 * quarter of all processor time of a short run, most of it for functions that are soon done. Waiting four times as long
 * before each took a tenth off such a run, and nothing off the speed of a long one.
 */
const MEASURED = /^11\./
/** Bytes of bytecode that run between two looks at whether a function is worth optimising; 67,584 unless set. */
const BUDGET = 250_000

/** Lets V8 wait longer before it optimises. To be called before threads are started. */
export function optimiseLater(): void {
  if (MEASURED.test(process.versions.v8)) setFlagsFromString(`--interrupt-budget=${BUDGET}`)
}
