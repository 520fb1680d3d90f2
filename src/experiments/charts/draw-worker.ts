import { parentPort } from "node:worker_threads"
import type { Chart } from "./chart.ts"
import { drawHere } from "./draw.ts"
import { loadRenderer } from "./render.ts"

/** Entry of the thread that draws: answers each chart with its text and then its pixels, in the order they came. */
export type DrawAnswer =
  | { readonly id: number; readonly svg: string }
  | { readonly id: number; readonly png: Uint8Array }
  | { readonly id: number; readonly failed: unknown }

const port = parentPort!
let before: Promise<unknown> = loadRenderer()

port.on("message", ({ id, chart }: { readonly id: number; readonly chart: Chart }) => {
  before = before.then(() => answer(id, chart))
})

async function answer(id: number, chart: Chart): Promise<void> {
  const say = (said: DrawAnswer): void => port.postMessage(said)
  try {
    const { svg, png } = await drawHere(chart)
    say({ id, svg })
    png.then(
      (pixels) => say({ id, png: pixels }),
      (failed: unknown) => say({ id, failed }),
    )
  } catch (failed) {
    say({ id, failed })
  }
}
