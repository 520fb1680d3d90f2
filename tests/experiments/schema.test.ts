import { readFileSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { describe, expect, test } from "vitest"
import { parse } from "yaml"
import { SETTING_KEYS } from "../../src/experiments/grammar.ts"
import { readExperimentText } from "../../src/experiments/read/read-experiment.ts"
import { experimentJsonSchema, experimentSchema } from "../../src/experiments/schema.ts"
import { SHIPPED_FOLDER, shippedExperiments } from "../../src/experiments/shipped.ts"
import { starterText } from "../../src/experiments/starter.ts"

const SCHEMA_PATH = join(SHIPPED_FOLDER, "experiment.schema.json")
const schema = experimentSchema()
const texts = [...shippedExperiments().map(({ path }) => ({ path, text: readFileSync(path, "utf8") }))]
texts.push({ path: join(SHIPPED_FOLDER, "starter.yaml"), text: starterText() })

/** True when the reader takes the text. */
function reads(path: string, text: string): boolean {
  return "experiment" in readExperimentText(path, text)
}

/** True when the schema for editors takes the text. */
function fits(text: string): boolean {
  return schema.safeParse(parse(text)).success
}

describe("the schema for editors", () => {
  test("is the committed one; GOLDEN_UPDATE=1 writes it anew", () => {
    const generated = experimentJsonSchema()
    if (process.env.GOLDEN_UPDATE === "1") writeFileSync(SCHEMA_PATH, generated)
    // compared as a whole but not printed: it is long
    const remedy = "write it anew with GOLDEN_UPDATE=1 npx vitest run tests/experiments/schema.test.ts"
    expect(readFileSync(SCHEMA_PATH, "utf8") === generated, remedy).toBe(true)
  })

  test("takes every shipped experiment and the starter, as the reader does", () => {
    expect(texts.length).toBeGreaterThan(7)
    for (const { path, text } of texts) expect([path, reads(path, text), fits(text)]).toEqual([path, true, true])
  })

  // mutation seen red: z.object in place of z.strictObject lets a misspelt key through
  test("refuses a key with one letter changed wherever it stands, as the reader does", () => {
    const tried = new Set<string>()
    for (const { path, text } of texts) {
      // a player of timed events may be called anything
      for (const name of Object.keys(parse(text).play?.players ?? {})) tried.add(name)
      for (const match of text.matchAll(/^(?:\s*|.*[{,] )([a-z][\w.-]*):(?: |$)/gm)) {
        if (match[0].trimStart().startsWith("#") || match[1] === "name" || tried.has(match[1]!)) continue
        tried.add(match[1]!)
        const at = match.index + match[0].lastIndexOf(`${match[1]}:`)
        const mutant = `${text.slice(0, at)}x${text.slice(at)}`
        expect([path, match[1], reads(path, mutant), fits(mutant)]).toEqual([path, match[1], false, false])
      }
    }
    expect(tried.size).toBeGreaterThan(25)
  })

  test("knows each parameter nested, dotted, swept and compared, with the sentence that explains it", () => {
    const json = JSON.parse(experimentJsonSchema()) as {
      properties: Record<string, unknown>
      $defs: Record<string, { description?: string }>
    }
    for (const key of SETTING_KEYS) {
      expect(json.properties, key).toHaveProperty([key])
      expect(json.$defs[key]?.description, key).toMatch(/Default /)
    }
    const nested = {
      goalie: { depth: "1 m", hands: "beside" },
      sweep: { goalie: { depth: { from: "0 m", to: "1 m", steps: 3 } } },
    }
    expect(
      schema.safeParse({ question: "x", ...nested, compare: [{ name: "a", shooter: { level: "junior" } }] }).success,
    ).toBe(true)
  })

  test("refuses a bare number for a length and takes both forms of a share", () => {
    expect(schema.safeParse({ question: "x", "goalie.depth": 1 }).success).toBe(false)
    expect(schema.safeParse({ question: "x", "goalie.blend": 0.5 }).success).toBe(true)
    expect(schema.safeParse({ question: "x", "goalie.blend": "50 %" }).success).toBe(true)
  })
})
