import { seedKey } from "../../dist/experiments/seed.js"

/** The name under which a generator of the battery's own is put to the same tests: what chance alone makes weak. */
export const CONTROL = "control"
export const CONTROL_WHY = "for comparison, AES_OFB, a generator of the battery's own"
/** Its number there. */
const AES_OFB = "205"

/** What dieharder is asked so that it takes words of its own, seeded by a key's text. */
export function controlWords(key) {
  return ["-g", AES_OFB, "-S", String(1 + (seedKey(key)[0] % 4_294_967_295))]
}
