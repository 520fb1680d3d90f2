import { isSeq } from "yaml"
import type { Problem } from "./problem.ts"
import { fail, readName } from "./setting.ts"
import { type Found, isNothing, itemsOf, show } from "./source.ts"

/** Reads `worst-of:`, names of compared cases; at least two, each once. */
export function readWorstOf(found: Found | undefined, cases: readonly string[], problems: Problem[]): string[] {
  if (found === undefined || isNothing(found)) return []
  const items = isSeq(found.node) ? itemsOf(found) : []
  const names = items.map((item) => readName(item, cases, problems))
  const read = [...new Set(names.filter((name) => name !== null))]
  if (read.length < 2 && !names.includes(null)) {
    const rule = "a list of at least two names of compared cases"
    fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
  }
  return read
}
