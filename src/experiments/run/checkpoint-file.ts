import { createHash } from "node:crypto"
import type { Identity } from "./checkpoint-identity.ts"

/** Raised whenever the numbers of an unfinished run change their meaning or their order. */
const FORMAT = 2
const NAME = "goalmouth unfinished"
const NEW_LINE = 10

/** What is kept of one stage of an unfinished run. */
export interface Kept {
  readonly identity: Identity
  /** How far the stage has come. */
  readonly state: Readonly<Record<string, number>>
  /** Its sums or rates, one array after the other. */
  readonly numbers: Float64Array
}

/**
 * One stage as the bytes of a file: a line with format and SHA-256 of all that follows, a line of JSON with identity
 * and state, and the numbers as they are in memory.
 */
export function bytesOfKept(
  identity: Identity,
  state: Readonly<Record<string, number>>,
  numbers: readonly Float64Array[],
): Uint8Array {
  const head = Buffer.from(`${JSON.stringify({ identity, state })}\n`)
  const raw = numbers.map((part) => Buffer.from(part.buffer, part.byteOffset, part.byteLength))
  return Buffer.concat([Buffer.from(`${NAME} ${FORMAT} ${hashOf([head, ...raw])}\n`), head, ...raw])
}

/** Reads those bytes back; "damaged" where they are not as they were written, "format" where another program wrote them. */
export function keptOfBytes(bytes: Uint8Array): Kept | "damaged" | "format" {
  const firstEnd = bytes.indexOf(NEW_LINE)
  const line = Buffer.from(bytes.subarray(0, Math.max(0, firstEnd))).toString("latin1")
  const [, format, hash] = /^goalmouth unfinished (\d+) ([0-9a-f]{64})$/.exec(line) ?? []
  const rest = bytes.subarray(firstEnd + 1)
  if (format === undefined || hash !== hashOf([rest])) return "damaged"
  if (Number(format) !== FORMAT) return "format"
  const headEnd = rest.indexOf(NEW_LINE)
  const { identity, state } = JSON.parse(Buffer.from(rest.subarray(0, headEnd)).toString())
  // a copy, as the numbers need not begin at a multiple of 8 bytes in the file
  return { identity, state, numbers: new Float64Array(new Uint8Array(rest.subarray(headEnd + 1)).buffer) }
}

function hashOf(parts: readonly Uint8Array[]): string {
  const hash = createHash("sha256")
  for (const part of parts) hash.update(part)
  return hash.digest("hex")
}
