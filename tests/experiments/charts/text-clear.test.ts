import { expect, test } from "vitest"
import { chartsOf } from "../../../src/experiments/charts/charts-of.ts"
import { puckEyeChart } from "../../../src/experiments/charts/puck-eye.ts"
import { svgOf } from "../../../src/experiments/charts/render.ts"
import {
  boxByDepth,
  depthAlone,
  depthByDistance,
  depthByPassSpeed,
  handsByDistance,
  stanceByCase,
} from "../fixture-results.ts"
import { lost, overlaps, textBoxes } from "./text-boxes.ts"

test("textBoxes() finds texts that meet, that are cut and that leave the page, and turned ones where they stand", () => {
  const page = (inner: string) =>
    `<svg width="100" height="100"><g transform="translate(10,10)"><g/>${inner}</g><text transform="translate(90,50)" font-size="10px">out of it</text></svg>`
  const two = (y: number) =>
    page(
      `<text transform="translate(0,20)" font-size="10px">one</text><text transform="translate(5,${y})" font-size="10px">two</text>`,
    )
  expect(overlaps(textBoxes(two(24)))).toEqual(["one | two"])
  expect(overlaps(textBoxes(two(40)))).toEqual([])
  expect(lost(two(40), textBoxes(two(40)))).toEqual(["out of it"])
  const turned = textBoxes(page(`<text transform="translate(20,60) rotate(-90)" font-size="10px">up</text>`))[0]!
  expect([turned.left < 30, turned.right > 30, turned.bottom]).toEqual([true, true, 70])
  expect(turned.top).toBeLessThan(61)
})

// seen to fail with labels at the heights of their lines
test("no text of any chart touches another, is cut or leaves the page", async () => {
  for (const results of [
    depthByDistance(),
    depthAlone(),
    depthByPassSpeed(),
    stanceByCase(),
    handsByDistance(),
    boxByDepth(),
  ])
    for (const chart of chartsOf(results)) {
      const svg = await svgOf(chart)
      const boxes = textBoxes(svg)
      expect(overlaps(boxes), `${results.experiment.name}, ${chart.name}`).toEqual([])
      expect(lost(svg, boxes), `${results.experiment.name}, ${chart.name}`).toEqual([])
    }
})

// seen to fail with every badge on its opening
test("puckEyeChart() puts the badges of openings that lie on one another side by side", async () => {
  const results = depthByDistance()
  const [first, ...rest] = results.puckEye
  const opening = first!.openings[0]!
  const crowded = {
    ...first!,
    spare: [],
    openings: [0, 0, 0.01, 0.02].map((by) => ({ ...opening, y: opening.y + by })),
  }
  const svg = await svgOf(puckEyeChart({ ...results, puckEye: [crowded, ...rest] })!)
  expect(overlaps(textBoxes(svg))).toEqual([])
})
