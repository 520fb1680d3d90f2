import { existsSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { Worker } from "node:worker_threads"
import type { Draw, DrawnChart } from "./draw.ts"
import type { DrawAnswer } from "./draw-worker.ts"

/** A thread that draws charts while others fire; what it needs is loaded meanwhile. Once it has ended, every draw fails. */
export interface Drawing {
  readonly draw: Draw
  close(): Promise<void>
}

interface Asked {
  readonly svg: Settled<string>
  readonly png: Settled<Uint8Array>
}

/** Starts the thread; null where the package is not built. */
export function openDrawing(): Drawing | null {
  const file = workerFile()
  if (file === null) return null
  const thread = new Worker(file)
  const asked = new Map<number, Asked>()
  let ended: Error | null = null
  const end = (reason: Error): void => {
    ended ??= reason
    for (const one of asked.values()) fail(one, ended)
  }
  thread.on("message", (said: DrawAnswer) => {
    const one = asked.get(said.id)!
    if ("svg" in said) one.svg.resolve(said.svg)
    else if ("png" in said) one.png.resolve(said.png)
    else fail(one, said.failed)
  })
  thread.on("error", end)
  thread.on("exit", () => end(new Error("The thread that draws has ended")))
  // a process that has nothing else to do does not wait for it
  thread.unref()
  return {
    draw: (chart) => {
      const one = { svg: withResolvers<string>(), png: withResolvers<Uint8Array>() }
      const id = asked.size
      asked.set(id, one)
      if (ended === null) {
        thread.postMessage({ id, chart })
        thread.ref()
      } else fail(one, ended)
      const drawn = drawnOf(one)
      // a failure is met where the chart is waited for
      drawn.catch(() => {})
      return drawn
    },
    close: async () => {
      await thread.terminate()
    },
  }
}

/** The built worker beside this file, or the one in dist when running from source. */
function workerFile(): string | null {
  const places = ["./draw-worker.js", "../../../dist/experiments/charts/draw-worker.js"]
  return places.map((place) => fileURLToPath(new URL(place, import.meta.url))).find((file) => existsSync(file)) ?? null
}

function fail({ svg, png }: Asked, reason: unknown): void {
  svg.reject(reason)
  png.reject(reason)
}

async function drawnOf({ svg, png }: Asked): Promise<DrawnChart> {
  return { svg: await svg.promise, png: png.promise }
}

interface Settled<Value> {
  readonly promise: Promise<Value>
  readonly resolve: (value: Value) => void
  readonly reject: (reason: unknown) => void
}

/** A promise and what settles it; its failure may be heard of late. */
function withResolvers<Value>(): Settled<Value> {
  let settle: Omit<Settled<Value>, "promise"> | undefined
  const promise = new Promise<Value>((resolve, reject) => {
    settle = { resolve, reject }
  })
  promise.catch(() => {})
  return { promise, ...settle! }
}
