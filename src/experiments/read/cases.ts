import { isMap, isSeq } from "yaml"
import { flatten, notAMapping } from "./flatten.ts"
import { EMPTY_LAYER, LAYER_KEYS, type Layer, readLayer } from "./layer.ts"
import type { Problem } from "./problem.ts"
import { fail, readText } from "./setting.ts"
import { type Found, isNothing, itemsOf, show } from "./source.ts"

/** One named alternative of `compare:`. */
export interface Case {
  readonly name: string
  readonly layer: Layer
  /** What the case writes, by key: to see what a sweep or a flag would contradict. */
  readonly leaves: ReadonlyMap<string, Found>
}

/** The one case of a file that compares none. */
export const ONLY_CASE: Case = { name: "", layer: EMPTY_LAYER, leaves: new Map() }

/** Reads `compare:`; a file without it has one nameless case. */
export function readCases(found: Found | undefined, problems: Problem[]): Case[] {
  if (found === undefined || isNothing(found)) return [ONLY_CASE]
  if (!isSeq(found.node) || found.node.items.length === 0) {
    const rule = "a list of cases, each with a name"
    fail(found, problems, { kind: "wrong type", key: found.key, rule, current: show(found) })
    return [ONLY_CASE]
  }
  const cases = itemsOf(found).flatMap((item) => readCase(item, problems) ?? [])
  for (const [i, { name, leaves }] of cases.entries()) {
    if (cases.findIndex((other) => other.name === name) === i) continue
    const at = leaves.get("name") ?? found
    fail(at, problems, {
      kind: "duplicate key",
      key: "compare.name",
      rule: "a name of its own",
      current: `${name} again`,
    })
  }
  return cases.length === 0 ? [ONLY_CASE] : cases
}

function readCase(item: Found, problems: Problem[]): Case | null {
  if (!isMap(item.node)) {
    problems.push(notAMapping(item))
    return null
  }
  const leaves = flatten({ ...item, key: "" }, ["name", ...LAYER_KEYS], problems)
  const nameFound = leaves.get("name")
  const layer = readLayer(leaves, problems)
  if (nameFound === undefined) {
    const facts = { key: "compare.name", rule: "given", current: "a case without a name" }
    return fail(item, problems, { kind: "missing key", ...facts })
  }
  const name = readText({ ...nameFound, key: "compare.name" }, problems)
  return name === null ? null : { name, layer, leaves }
}
