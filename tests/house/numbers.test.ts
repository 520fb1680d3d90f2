import ts from "typescript"
import { describe, expect, test } from "vitest"
import { formatQuantity, parseQuantity } from "../../src/experiments/quantity.ts"
import { UNITS } from "../../src/experiments/quantity-units.ts"
import type { Choice, Quantity } from "../../src/models/parameter.ts"
import { CHOICES, QUANTITIES } from "../../src/models/settings.ts"
import type { Source } from "../../src/models/source.ts"
import { SOURCES } from "../../src/models/sources.ts"
import { commentsOf, nodesBelow, sourcesBelow, treeOf } from "./tree.ts"

/** Sources of a parameter that stand for no entry of the bibliography. */
const UNSOURCED = new Set(["assumption", "choice"])
/** A bibliography key in a comment: [Winter], [ECHL2021]. Names in capitals alone are columns of tables. */
const BRACKETED = /\[([A-Z][A-Za-z]*[a-z][A-Za-z]*\d{0,4}[a-z]?|[A-Z]+\d{4}[a-z]?)\](?!\()/g

const QUANTITY_LIST = Object.entries<Quantity>(QUANTITIES)
const CHOICE_LIST = Object.entries<Choice>(CHOICES)
const RECORDS = [...QUANTITY_LIST, ...CHOICE_LIST]
const MODELS = sourcesBelow("src/models")
const TABLES = MODELS.filter((path) => path.endsWith("parameters.ts"))
const BOOKS = MODELS.filter((path) => path.endsWith("sources.ts"))

function namesOf(list: readonly (readonly [string, unknown])[]): string[] {
  return list.map(([key]) => key)
}

/** Names of the properties written out in some files that fit a pattern. */
function writtenNames(paths: readonly string[], pattern: RegExp): string[] {
  return paths.flatMap((path) =>
    [...nodesBelow(treeOf(path))].flatMap((node) => {
      if (!ts.isPropertyAssignment(node)) return []
      const name = ts.isStringLiteral(node.name) || ts.isIdentifier(node.name) ? node.name.text : ""
      return pattern.test(name) ? [name] : []
    }),
  )
}

function repeated(names: readonly string[]): string[] {
  return names.filter((name, i) => names.indexOf(name) !== i)
}

describe("parameters", () => {
  // seen to fail: a source key with a letter exchanged
  test("name a source of the bibliography, or say assumption or choice", () => {
    const wrong = RECORDS.filter(([, { source }]) => !UNSOURCED.has(source) && !(source in SOURCES))
    expect(wrong.map(([key, { source }]) => `${key}: ${source}`)).toEqual([])
  })

  // seen to fail: goalie.depth_error with low above its value; most of a pad below its high
  test("have a default within what is plausible, and that within what is allowed", () => {
    const wrong = QUANTITY_LIST.filter(([, { value, low, high, least, most }]) => {
      if (!(Number.isFinite(least) && Number.isFinite(most) && least <= most)) return true
      if (Number.isNaN(value)) return false
      return !(least <= low && low <= value && value <= high && high <= most)
    })
    expect(namesOf(wrong)).toEqual([])
  })

  // seen to fail: a plausible range beside a default that is not set
  test("leave a default unset only where the person chooses, and then draw no range", () => {
    const unset = QUANTITY_LIST.filter(
      ([, { value, low, high }]) => Number.isNaN(value) || Number.isNaN(low) || Number.isNaN(high),
    )
    const wrong = unset.filter(
      ([, { value, low, high, source }]) =>
        source !== "choice" || !Number.isNaN(value) || !Number.isNaN(low) || !Number.isNaN(high),
    )
    expect(namesOf(wrong)).toEqual([])
    expect(unset.length).toBeGreaterThan(0)
  })

  // seen to fail: "inch" as a unit to print in
  test("print in a unit of their dimension, and what is printed reads back", () => {
    const wrong = QUANTITY_LIST.filter(([, { dimension, unit, value, least, most }]) => {
      if (!UNITS[dimension].some(({ name }) => name === unit)) return true
      return [value, least, most].some((number) => {
        if (Number.isNaN(number)) return false
        const read = parseQuantity(formatQuantity(number, dimension, unit), dimension)
        return !("value" in read) || Math.abs(read.value - number) > 1e-3 * Math.max(1e-6, Math.abs(number))
      })
    })
    expect(namesOf(wrong)).toEqual([])
  })

  // seen to fail: a sentence without its full stop
  test("say what they are in one line that starts with a capital and ends with a full stop", () => {
    const wrong = RECORDS.filter(([, { why }]) => !/^[A-Z0-9][^\n]{10,}[^.\s]\.$/.test(why))
    expect(wrong.map(([key, { why }]) => `${key}: ${why}`)).toEqual([])
  })

  test("that choose among names have their default among them, each name once", () => {
    const wrong = CHOICE_LIST.filter(
      ([, { names, value }]) => !names.includes(value) || new Set(names).size !== names.length,
    )
    expect(namesOf(wrong)).toEqual([])
  })

  // seen to fail: goalie.depth also in the goalie's own room
  test("have one home each: no key is written in two tables", () => {
    const written = writtenNames(TABLES, /^[a-z]+\.[a-z_0-9]+$/)
    expect(repeated(written)).toEqual([])
    expect([...written].sort()).toEqual([...Object.keys(QUANTITIES), ...Object.keys(CHOICES)].sort())
  })
})

describe("sources", () => {
  const inComments = [...sourcesBelow("src"), ...sourcesBelow("tests/published")].flatMap((path) =>
    commentsOf(path).flatMap(({ text, line }) =>
      [...text.matchAll(BRACKETED)].map((match) => ({ key: match[1]!, place: `${path}:${line}` })),
    ),
  )

  // seen to fail: [Winter] misspelt in a comment
  test("in brackets in a comment are in the bibliography", () => {
    const wrong = inComments.filter(({ key }) => !(key in SOURCES))
    expect(wrong).toEqual([])
    expect(inComments.length).toBeGreaterThan(5)
  })

  // seen to fail: an entry that nothing names
  test("are each named by a parameter, a preset or a comment", () => {
    const named = new Set([...RECORDS.map(([, { source }]) => source), ...inComments.map(({ key }) => key)])
    for (const path of MODELS) {
      if (BOOKS.includes(path)) continue
      for (const node of nodesBelow(treeOf(path))) if (ts.isStringLiteral(node)) named.add(node.text)
    }
    expect(Object.keys(SOURCES).filter((key) => !named.has(key))).toEqual([])
  })

  test("have one entry each", () => {
    const written = writtenNames(BOOKS, /^[A-Z]/)
    expect(repeated(written)).toEqual([])
    expect([...written].sort()).toEqual(Object.keys(SOURCES).sort())
  })

  test("of presets and tables resolve", () => {
    const wrong = MODELS.flatMap((path) =>
      [...nodesBelow(treeOf(path))].flatMap((node) => {
        if (!ts.isPropertyAssignment(node)) return []
        const name = node.name.getText()
        const grouped =
          ts.isObjectLiteralExpression(node.parent) &&
          ts.isPropertyAssignment(node.parent.parent) &&
          node.parent.parent.name.getText() === "sources"
        if (!grouped && name !== "source") return []
        const value = ts.isStringLiteral(node.initializer) ? node.initializer.text : null
        return value === null || UNSOURCED.has(value) || value in SOURCES ? [] : [`${path}: ${value}`]
      }),
    )
    expect(wrong).toEqual([])
  })

  test("have a title and say how they were seen", () => {
    const ways = ["read", "quoted", "derived", "memory"]
    const wrong = Object.entries<Source>(SOURCES).filter(
      ([, { title, seen }]) => title.trim().length < 8 || !ways.includes(seen),
    )
    expect(namesOf(wrong)).toEqual([])
  })
})
