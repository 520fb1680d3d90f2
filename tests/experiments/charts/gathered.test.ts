import { expect, test } from "vitest"
import { type Spec, VEGA_SCHEMA } from "../../../src/experiments/charts/chart.ts"
import { gathered } from "../../../src/experiments/charts/gathered.ts"
import { path, rectangle, text } from "../../../src/experiments/charts/mouth.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"

const RING = "M0,-5a5,5 0 1 1 0,10a5,5 0 1 1 0,-10Z"

/** Rings in two looks, boxes and words, some of them in a group. */
function someMarks(): Spec[] {
  const row = [0, 1, 2, 3].flatMap((at) => [
    path(RING, { x: 20 * at, y: 10, fill: at === 2 ? "red" : "blue" }),
    ...(at > 1 ? [] : [rectangle({ x: at, x2: 9 + at, y: 1, y2: 3, fill: "green" })]),
  ])
  const words = ["far", "near", "in tight"].map((word, at) => text(word, { x: 4, y: 20 * at, fontSize: 12 + at }))
  const dashed = path(RING, { x: 3, y: 3, fill: "blue", stroke: "black", strokeDash: [2, 1] })
  const inner = { type: "group", encode: { update: { x: { value: 50 } } }, marks: [dashed, dashed, dashed, ...words] }
  return [...row, ...words, inner, ...words.slice(1)]
}

async function elementsOf(spec: Spec): Promise<string[]> {
  const page = { $schema: VEGA_SCHEMA, width: 200, height: 100, padding: 0, ...spec }
  const svg = await svgOf({ name: "marks", title: "", description: "", language: "vega", spec: page })
  return [...svg.matchAll(/<(?:path|text)\b[^>]*>[^<]*/g)]
    .map(([element]) => element)
    .filter((element) => !/class="(?:background|foreground)"/.test(element))
}

// seen to fail: marks alike gathered across others between them
test("gathered() draws the same shapes and words in the same order with fewer marks", async () => {
  const alone = await elementsOf({ marks: someMarks() })
  const together = gathered(someMarks())
  expect(alone.length).toBe(17)
  expect(await elementsOf({ ...together })).toEqual(alone)
  expect(together.marks.length).toBe(10)
})
