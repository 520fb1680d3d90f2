/** Everything that can be wrong with a file or a flag; a closed list, so that a caller can switch over it. */
export const PROBLEM_KINDS = [
  "no such file",
  "not a file",
  "path through a file",
  "unreadable",
  "too large",
  "empty",
  "not text",
  "not YAML",
  "tab",
  "duplicate key",
  "too many aliases",
  "unknown key",
  "missing key",
  "wrong type",
  "not a number",
  "missing unit",
  "wrong unit",
  "out of range",
  "unknown name",
  "empty sweep",
  "reversed sweep",
  "zero step",
  "too many points",
  "unequal lengths",
  "circular",
  "bad spot",
  "baseline not a point",
  "contradiction",
  "bad flag",
] as const
export type ProblemKind = (typeof PROBLEM_KINDS)[number]

/** Where something was written. Line and column count from 1; null for a flag or a whole file. */
export interface Place {
  readonly file: string
  readonly line: number | null
  readonly column: number | null
}

/** One thing that is wrong, where, why, and what to do about it. */
export interface Problem extends Place {
  readonly kind: ProblemKind
  /** Dotted key, or what the file as a whole is called. */
  readonly key: string
  /** Completes "must be …". */
  readonly rule: string
  /** Completes "current value is …". */
  readonly current: string
  readonly remedy: string | null
  /** The whole message. */
  readonly text: string
}

/** What differs from problem to problem; the rest follows. */
export interface ProblemFacts {
  readonly kind: ProblemKind
  readonly key: string
  readonly rule: string
  readonly current: string
  readonly remedy?: string | null
}

/** A problem with its message in the house's grammar. */
export function problemAt(place: Place, facts: ProblemFacts, action: "read" | "write" = "read"): Problem {
  const remedy = facts.remedy ?? null
  const tail = remedy === null ? "" : ` (${remedy})`
  const { kind, key, rule, current } = facts
  const text = `Cannot ${action} ${placeText(place)} as ${key} must be ${rule}: current value is ${current}${tail}`
  return { ...place, kind, key, rule, current, remedy, text }
}

/** `file:line:column`, or the file alone. */
export function placeText(place: Place): string {
  return place.line === null ? place.file : `${place.file}:${place.line}:${place.column ?? 1}`
}
