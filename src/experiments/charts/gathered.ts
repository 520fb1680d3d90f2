import type { Spec } from "./chart.ts"

/** Fewer marks alike than this stay marks of their own. */
const FEWEST = 3

/** Marks of one page or group, and the tables that some of them are drawn from. */
interface Gathered {
  readonly data?: readonly Spec[]
  readonly marks: readonly Spec[]
}

/**
 * The same marks, drawn in the same order, with those that follow one another and set the same properties as one mark with
 * a row of a table for each: Vega compiles every mark it is given, which takes far longer than to draw it.
 */
export function gathered(marks: readonly Spec[]): Gathered {
  const runs: Spec[][] = []
  let before: string | null = null
  for (const mark of marks) {
    const kind = kindOf(mark)
    if (kind !== null && kind === before) runs.at(-1)!.push(mark)
    else runs.push([mark])
    before = kind
  }
  const data: Spec[] = []
  const all = runs.flatMap((run) => {
    if (run.length < FEWEST) return run.map(within)
    const name = `rows ${data.length + 1}`
    const { mark, rows } = tabled(run, name)
    data.push({ name, values: rows })
    return [mark]
  })
  return data.length === 0 ? { marks: all } : { data, marks: all }
}

/** A group with its own marks gathered; any other mark as it is. */
function within(mark: Spec): Spec {
  if (mark.type !== "group" || mark.data !== undefined) return mark
  return { ...mark, ...gathered((mark.marks ?? []) as readonly Spec[]) }
}

/** What marks must share to be one: type and the properties that are set; null for those that stand alone. */
function kindOf(mark: Spec): string | null {
  if (Object.keys(mark).some((key) => !["type", "interactive", "encode"].includes(key))) return null
  return `${mark.type} ${mark.interactive} ${Object.keys(propertiesOf(mark)).sort().join(" ")}`
}

type Properties = Readonly<Record<string, { readonly value: unknown }>>

function propertiesOf(mark: Spec): Properties {
  return (mark.encode as { readonly update: Properties }).update
}

/** One mark for all: what is the same of all of them is said once, the rest is a field of each row. */
function tabled(run: readonly Spec[], name: string): { readonly mark: Spec; readonly rows: readonly Spec[] } {
  const all = run.map(propertiesOf)
  const keys = Object.keys(all[0]!)
  const same = (key: string): boolean => {
    const first = JSON.stringify(all[0]![key])
    return all.every((one) => JSON.stringify(one[key]) === first)
  }
  const varied = keys.filter((key) => !same(key))
  const update = Object.fromEntries(keys.map((key) => [key, varied.includes(key) ? { field: key } : all[0]![key]]))
  return {
    mark: { ...run[0]!, from: { data: name }, encode: { update } },
    rows: all.map((one) => Object.fromEntries(varied.map((key) => [key, one[key]!.value]))),
  }
}
