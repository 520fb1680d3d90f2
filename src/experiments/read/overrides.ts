import { LAYER_KEYS } from "./layer.ts"
import { suggestion } from "./nearest.ts"
import { type Problem, problemAt } from "./problem.ts"
import { type Found, flagFound } from "./source.ts"

/** What flags of the command line change, as text; it passes the same checks as the file. */
export interface Overrides {
  /** `goalie.depth=1 m` each. */
  readonly set?: readonly string[]
  readonly seed?: string
  readonly shots?: string
  readonly halfWidth?: string
  readonly halfWidthOf?: string
  readonly sampling?: string
}

/** Flags as found values, each pointing at itself. */
export interface FlagValues {
  readonly settings: ReadonlyMap<string, Found>
  readonly seed: Found | undefined
  readonly shots: Found | undefined
  readonly halfWidth: Found | undefined
  readonly halfWidthOf: Found | undefined
  readonly sampling: Found | undefined
}

/** Takes flags apart; a `--set` without a known key is a problem. */
export function readOverrides(overrides: Overrides, problems: Problem[]): FlagValues {
  const settings = new Map<string, Found>()
  for (const text of overrides.set ?? []) {
    const found = readSet(text, problems)
    if (found !== null) settings.set(found.key, found)
  }
  const flag = (name: string, key: string, value: string | undefined): Found | undefined =>
    value === undefined ? undefined : flagFound(`--${name} ${value}`, key, value)
  return {
    settings,
    seed: flag("seed", "seed", overrides.seed),
    shots: flag("shots", "shots", overrides.shots),
    halfWidth: flag("half-width", "until.half-width", overrides.halfWidth),
    halfWidthOf: flag("half-width-of", "until.of", overrides.halfWidthOf),
    sampling: flag("sampling", "sampling", overrides.sampling),
  }
}

function readSet(text: string, problems: Problem[]): Found | null {
  const flag = `--set ${text}`
  const place = { file: flag, line: null, column: null }
  const equals = text.indexOf("=")
  if (equals < 1) {
    const facts = { key: "--set", rule: "key=value such as goalie.depth=1 m", current: text === "" ? "nothing" : text }
    problems.push(problemAt(place, { kind: "bad flag", ...facts }))
    return null
  }
  const key = text.slice(0, equals).trim()
  if (LAYER_KEYS.includes(key)) return flagFound(flag, key, text.slice(equals + 1).trim())
  const remedy = suggestion(key, LAYER_KEYS) ?? "goalmouth parameters lists them"
  problems.push(problemAt(place, { kind: "unknown key", key, rule: "a known key", current: text, remedy }))
  return null
}
