import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  Scalar,
} from "yaml"
import { type Place, type Problem, problemAt } from "./problem.ts"

/** One text that was parsed: a file, or a flag's value. */
export interface Source {
  /** As the person wrote the path, or the whole flag. */
  readonly file: string
  /** Folder that paths written in it start from. */
  readonly folder: string
  readonly document: Document | null
  readonly lines: LineCounter | null
}

/** A value and the dotted key it stands under. */
export interface Found {
  readonly source: Source
  readonly key: string
  /** The value with aliases followed. */
  readonly node: Node | null
  /** Offset of the place to point at: the key of a pair, the item of a list. */
  readonly offset: number | null
}

/** More aliases than any experiment needs: a file built to explode in memory. */
const MOST_ALIASES = 100

/** Parses YAML, listing each problem of its syntax; keys written twice are left to those who read them. */
export function parseSource(file: string, folder: string, text: string, problems: Problem[]): Source | null {
  const lines = new LineCounter()
  // the parser's own warnings go to standard error past every stream, and say less than the problems
  const document = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: false,
    logLevel: "error",
  })
  const source = { file, folder, document, lines }
  let usable = true
  for (const error of [...document.errors, ...document.warnings]) {
    const found = { source, key: "the file", node: null, offset: error.pos[0] }
    usable = false
    reportSyntax(found, error.code, error.message, problems)
  }
  return usable && aliasesAreFew(source, problems) ? source : null
}

/** A source for the value of a flag, which has neither lines nor columns. */
export function flagSource(flag: string): Source {
  return { file: flag, folder: ".", document: null, lines: null }
}

/** A flag's value under the key it sets. */
export function flagFound(flag: string, key: string, text: string): Found {
  return { source: flagSource(flag), key, node: new Scalar(text), offset: null }
}

/** Where a found value was written. */
export function placeOf(found: Found): Place {
  const { source, offset } = found
  if (source.lines === null || offset === null) return { file: source.file, line: null, column: null }
  const { line, col } = source.lines.linePos(offset)
  return { file: source.file, line, column: col }
}

/** The pairs of a mapping, each under its key appended to the mapping's own. */
export function pairsOf(found: Found): Found[] {
  if (!isMap(found.node)) return []
  return found.node.items.map((pair) => {
    const name = isScalar(pair.key) ? textOf(pair.key) : String(pair.key)
    const key = found.key === "" ? name : `${found.key}.${name}`
    const offset = (isNode(pair.key) ? pair.key.range?.[0] : null) ?? found.offset
    return { source: found.source, key, node: follow(found.source, pair.value), offset }
  })
}

/** The items of a list, each under the list's own key. */
export function itemsOf(found: Found): Found[] {
  if (!isSeq(found.node)) return []
  return found.node.items.map((item) => {
    const offset = (isNode(item) ? item.range?.[0] : null) ?? found.offset
    return { source: found.source, key: found.key, node: follow(found.source, item), offset }
  })
}

/** True for `key:` with nothing after it. */
export function isNothing(found: Found): boolean {
  return found.node === null || (isScalar(found.node) && found.node.value === null)
}

/** The text of a single value as it was written, or null for a mapping, a list or nothing. */
export function scalarText(found: Found): string | null {
  return isScalar(found.node) && found.node.value !== null ? textOf(found.node).trim() : null
}

/** True when the value is text to YAML: `1.2 m` and `"12"` are, `12` and `true` are not. */
export function isText(found: Found): boolean {
  return isScalar(found.node) && typeof found.node.value === "string"
}

/** A short form of any value for a message. */
export function show(found: Found): string {
  if (isNothing(found)) return "nothing"
  if (isMap(found.node)) return "a mapping"
  if (isSeq(found.node)) return found.node.items.length === 0 ? "an empty list" : "a list"
  const text = (scalarText(found) ?? "").replaceAll(/\s+/g, " ")
  if (text === "") return "empty text"
  return text.length > 60 ? `${text.slice(0, 57)}...` : text
}

function textOf(scalar: Scalar): string {
  return typeof scalar.value === "string" ? scalar.value : (scalar.source ?? String(scalar.value))
}

function follow(source: Source, value: unknown): Node | null {
  const node = isNode(value) ? value : null
  if (!isAlias(node) || source.document === null) return node
  return node.resolve(source.document) ?? null
}

function aliasesAreFew(source: Source, problems: Problem[]): boolean {
  try {
    source.document?.toJS({ maxAliasCount: MOST_ALIASES })
    return true
  } catch {
    const place = { file: source.file, line: null, column: null }
    const rule = `a file whose aliases all have an anchor and stand for fewer than ${MOST_ALIASES} values`
    const remedy = "write the values out"
    problems.push(problemAt(place, { kind: "too many aliases", key: "the file", rule, current: "beyond that", remedy }))
    return false
  }
}

function reportSyntax(found: Found, code: string, message: string, problems: Problem[]): void {
  if (code === "TAB_AS_INDENT") {
    const facts = { key: "indentation", rule: "made of spaces", current: "a tab", remedy: "use two spaces a level" }
    problems.push(problemAt(placeOf(found), { kind: "tab", ...facts }))
    return
  }
  const current = message.replace(/\s+/g, " ").replace(/[;.].*$/, "")
  const facts = { key: "the file", rule: "YAML", current: `text that is not: ${current}` }
  problems.push(problemAt(placeOf(found), { kind: "not YAML", ...facts, remedy: SYNTAX_REMEDIES[code] ?? null }))
}

const SYNTAX_REMEDIES: Readonly<Record<string, string>> = {
  BLOCK_AS_IMPLICIT_KEY: "a value that holds a colon and a space needs quotes",
  MULTIPLE_DOCS: "keep one experiment in a file",
  MISSING_CHAR: "close the quotation or the bracket",
  BAD_INDENT: "check the bracket or the indentation",
}
