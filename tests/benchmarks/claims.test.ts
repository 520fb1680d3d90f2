import { existsSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { SHIPPED_FOLDER, shippedExperiments } from "../../src/experiments/shipped.ts"

const PAGE = readFileSync(`${SHIPPED_FOLDER}README.md`, "utf8")
const LIST = new URL("../../benchmarks/claims-list.mjs", import.meta.url).href
const { CLAIMS }: { CLAIMS: { says: string; so?: string; asks: string[]; but?: string }[] } = await import(LIST)

/** Experiments a part of the page links to. */
function linked(text: string): string[] {
  return [...text.matchAll(/\]\(([\w-]+)\.yaml\)/g)].map((match) => match[1]!)
}

// seen to fail: a new experiment not yet on the page; an experiment renamed
test("the page of the shipped experiments links each of them, and nothing that is not there", () => {
  const names = shippedExperiments().map(({ name }) => name)
  expect([...new Set(linked(PAGE))].sort()).toEqual(names)
  expect(linked(PAGE).filter((name) => !existsSync(`${SHIPPED_FOLDER}${name}.yaml`))).toEqual([])
})

// seen to fail: the experiment of a claim changed in the list alone
test("the page has every disputed claim of the list in its order, with its experiments or the reason why none", () => {
  const sections = PAGE.split(/^## /m).slice(1)
  expect(CLAIMS).toHaveLength(28)
  for (const [at, { says, so, asks, but }] of CLAIMS.entries()) {
    const section = sections[at]!
    expect(section.split("\n")[0]).toBe(`${at + 1}. ${says}`)
    expect(linked(section)).toEqual(asks)
    if (asks.length === 0) expect(section).toContain(`No experiment. ${but}`)
    else expect(section).toContain(`**${so}.**`)
  }
})
