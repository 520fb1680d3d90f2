import { isMap } from "yaml"
import { groupsOf } from "../grammar.ts"
import { suggestion } from "./nearest.ts"
import { type Problem, problemAt } from "./problem.ts"
import { type Found, isNothing, pairsOf, placeOf, show } from "./source.ts"

/**
 * Every known key below a mapping with its value, nested or dotted alike. A key that is not known, stands twice, or is a
 * section without a mapping is a problem.
 */
export function flatten(root: Found, known: readonly string[], problems: Problem[]): Map<string, Found> {
  const groups = groupsOf(known)
  const leaves = new Map<string, Found>()
  const sections = new Map<string, Found>()
  const visit = (found: Found): void => {
    for (const pair of pairsOf(found)) {
      if (groups.has(pair.key) && isMap(pair.node) && !isRange(pair)) {
        keep(pair, sections, problems)
        visit(pair)
      } else if (known.includes(pair.key)) keep(pair, leaves, problems)
      else if (!groups.has(pair.key)) problems.push(unknownKey(pair, known))
      else if (!isNothing(pair)) problems.push(notAMapping(pair))
    }
  }
  visit(root)
  return leaves
}

/** The values of a mapping with a few plain keys, by key without the mapping's own. */
export function partsOf(found: Found, names: readonly string[], problems: Problem[]): Map<string, Found> {
  const known = names.map((name) => `${found.key}.${name}`)
  const kept = new Map<string, Found>()
  for (const pair of pairsOf(found)) {
    if (known.includes(pair.key)) keep(pair, kept, problems)
    else problems.push(unknownKey(pair, known))
  }
  return new Map([...kept].map(([key, pair]) => [key.slice(found.key.length + 1), pair]))
}

/** A key nobody knows, with the nearest one that is known. */
export function unknownKey(found: Found, known: readonly string[]): Problem {
  const remedy = suggestion(found.key, known) ?? "goalmouth parameters lists them"
  const facts = { key: found.key, rule: "a known key", current: show(found), remedy }
  return problemAt(placeOf(found), { kind: "unknown key", ...facts })
}

/** A value that should have been a mapping of keys; the remedy may show one. */
export function notAMapping(found: Found, remedy: string | null = null): Problem {
  const facts = { key: found.key, rule: "a mapping of keys to values", current: show(found), remedy }
  return problemAt(placeOf(found), { kind: "wrong type", ...facts })
}

/** `{ from, to, step }` is the value of a swept key, never a section. */
function isRange(found: Found): boolean {
  const names = pairsOf(found).map((pair) => pair.key.slice(found.key.length + 1))
  return names.includes("from") && names.includes("to")
}

function keep(pair: Found, leaves: Map<string, Found>, problems: Problem[]): void {
  const first = leaves.get(pair.key)
  if (first === undefined) {
    leaves.set(pair.key, pair)
    return
  }
  const line = placeOf(first).line
  const remedy = line === null ? null : `it stands in line ${line} already`
  const facts = { key: pair.key, rule: "written once", current: `${show(pair)} as well as ${show(first)}`, remedy }
  problems.push(problemAt(placeOf(pair), { kind: "duplicate key", ...facts }))
}
