import { mkdirSync, readFileSync, writeFileSync } from "node:fs"
import { dirname, join } from "node:path"
import { fileURLToPath } from "node:url"
import { expect, test } from "vitest"
import { chartsOf } from "../../src/experiments/charts/charts-of.ts"
import { pngOf, svgOf } from "../../src/experiments/charts/render.ts"
import { readExperiment } from "../../src/experiments/read/read-experiment.ts"
import { runExperiment } from "../../src/experiments/run/run-experiment.ts"

const ROOT = fileURLToPath(new URL("../..", import.meta.url))
/** The picture of the README: the first chart of the experiment that `npm start` runs. */
const PICTURE = "experiments/pictures/depth.png"
const EXPERIMENT = "experiments/depth-straight-shots.yaml"

/** Draws the picture anew: as shipped, at the size of a page. */
async function draw(): Promise<void> {
  const read = readExperiment(join(ROOT, EXPERIMENT), { shots: "20000" })
  if ("problems" in read) throw new Error(read.problems.map(({ text }) => text).join("; "))
  const results = await runExperiment(read.experiment, { version: "picture", workers: 2, assumptions: true })
  const png = await pngOf(await svgOf(chartsOf(results)[0]!), 1)
  mkdirSync(dirname(join(ROOT, PICTURE)), { recursive: true })
  writeFileSync(join(ROOT, PICTURE), png)
}

test("the README shows a picture that a run drew, under 200 kB; npm run golden draws it anew", {
  timeout: 600_000,
}, async () => {
  if (process.env.GOLDEN_UPDATE === "1") await draw()
  const picture = readFileSync(join(ROOT, PICTURE))
  expect([...picture.subarray(1, 4)].map((byte) => String.fromCharCode(byte)).join("")).toBe("PNG")
  expect(picture.length).toBeGreaterThan(10_000)
  expect(picture.length).toBeLessThan(200_000)
  expect(readFileSync(join(ROOT, "README.md"), "utf8")).toContain(`](${PICTURE})`)
})
