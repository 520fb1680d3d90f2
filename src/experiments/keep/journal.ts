import { createHash } from "node:crypto"
import { type FileHandle, open } from "node:fs/promises"
import type { EncodedRows, RowGroup } from "./row-group.ts"

/**
 * Beside the growing file of shots lies a journal of text: a line with the run it belongs to, then a line for every row
 * group with its length, the SHA-256 of its bytes and what the end of the file will say of it. Each line begins with a
 * hash of its own.
 */
export interface Entry {
  readonly bytes: number
  readonly hash: string
  readonly rowGroup: RowGroup
}

export function entryOf({ bytes, rowGroup }: EncodedRows): Entry {
  return { bytes: bytes.length, hash: sha256(bytes), rowGroup }
}

/** JSON has no whole numbers of 64 bits: they get an n, as in the language. No text of a row group looks like that. */
export function lineOf(value: Entry | { readonly run: string }): string {
  const text = JSON.stringify(value, (_key, item) => (typeof item === "bigint" ? `${item}n` : item))
  return `${sha256(text)} ${text}\n`
}

/** The entries of a journal up to the first line that was not written whole; none where it is of another run. */
export function entriesOf(text: string, run: string): Entry[] {
  const [first, ...lines] = text.split("\n").slice(0, -1)
  if (first === undefined || `${first}\n` !== lineOf({ run })) return []
  const entries: Entry[] = []
  for (const line of lines) {
    const [hash] = line.split(" ", 1)
    const text = line.slice(hash!.length + 1)
    if (sha256(text) !== hash) break
    entries.push(JSON.parse(text, (_key, item) => (/^-?\d+n$/.test(String(item)) ? BigInt(item.slice(0, -1)) : item)))
  }
  return entries
}

/** Those entries, from the first on, whose bytes really lie in the file from `start` on. */
export async function intactOf(path: string, entries: readonly Entry[], start: number): Promise<Entry[]> {
  const file = await open(path, "r").catch(() => null)
  if (file === null) return []
  try {
    const intact: Entry[] = []
    let at = start
    for (const entry of entries) {
      if ((await hashOf(file, at, entry.bytes)) !== entry.hash) break
      intact.push(entry)
      at += entry.bytes
    }
    return intact
  } finally {
    await file.close()
  }
}

async function hashOf(file: FileHandle, at: number, length: number): Promise<string> {
  const bytes = new Uint8Array(length)
  const { bytesRead } = await file.read(bytes, 0, length, at)
  return sha256(bytes.subarray(0, bytesRead))
}

function sha256(of: string | Uint8Array): string {
  return createHash("sha256").update(of).digest("hex")
}
