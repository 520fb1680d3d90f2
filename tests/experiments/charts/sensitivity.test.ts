import { describe, expect, test } from "vitest"
import { chartsOf } from "../../../src/experiments/charts/charts-of.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import { sensitivityChart } from "../../../src/experiments/charts/sensitivity.ts"
import { depthAlone, estimate } from "../fixture-results.ts"
import { INVENTED } from "../sensitivity/finding-fixture.ts"

const results = { ...depthAlone(), sensitivity: INVENTED }

function textsOf(svg: string): string[] {
  return [...svg.matchAll(/<text[^>]*>(.*?)<\/text>/gs)].map(([, inner]) => inner!.replaceAll(/<[^>]+>/g, " ").trim())
}

describe("sensitivityChart()", () => {
  // seen red: rows in the order of their keys
  test("ranks every quantity by its total effect and prints effect and gain beside each", async () => {
    const texts = textsOf(await svgOf(sensitivityChart(results)!))
    const names = ["Reaction", "Placing the hands", "Drop", "Being square", "Top speed of the legs"]
    expect(texts.filter((text) => names.includes(text))).toEqual(names)
    for (const number of ["42", "38", "12", "4.0", "0.1", "+0.90", "+1.20"]) expect(texts).toContain(number)
  })

  test("draws only effects where nothing is trained", async () => {
    const effects = INVENTED.effects.map((effect) => ({ ...effect, gain: null }))
    const texts = textsOf(await svgOf(sensitivityChart({ ...results, sensitivity: { ...INVENTED, effects } })!))
    expect(texts).toContain("Share of the spread in save rate, %")
    expect(texts.some((text) => text.includes("10 % better"))).toBe(false)
  })

  // seen red: an interval drawn up to 117 %
  test("draws no share beyond the whole", () => {
    const [first, ...rest] = INVENTED.effects
    const effects = [{ ...first!, total: estimate(0.67, 0.5) }, ...rest]
    const drawn = JSON.stringify(sensitivityChart({ ...results, sensitivity: { ...INVENTED, effects } })!.spec)
    expect(drawn).toContain('"high":100')
    expect(drawn).not.toContain('"high":117')
  })

  test("comes first among the charts of a run that asks, and is none of another's", () => {
    expect(chartsOf(results)[0]?.name).toBe("sensitivity")
    expect(chartsOf(depthAlone()).map(({ name }) => name)).not.toContain("sensitivity")
  })
})
