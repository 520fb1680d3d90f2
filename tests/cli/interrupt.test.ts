import { expect, test } from "vitest"
import { watchInterrupt } from "../../src/cli/interrupt.ts"

/** What the first Ctrl-C says. */
function said(keeps: boolean): string {
  const err: string[] = []
  const streams = { out: () => {}, err: (text: string) => void err.push(text), colour: false }
  const others = process.listeners("SIGINT")
  const watch = watchInterrupt(streams, () => {}, keeps)
  // the listener of the run alone: whoever else listens may end the process
  for (const listen of process.listeners("SIGINT")) if (!others.includes(listen)) listen("SIGINT")
  expect(watch.asked()).toBe(true)
  watch.end()
  return err.join("")
}

// seen to fail: the same words whether shots are kept or not
test("watchInterrupt() says that the file of shots comes with the end of the run, where shots are kept", () => {
  expect(said(true)).toBe(
    "Stopping after the shots in hand; what is done is written, shots.parquet once the same command has carried the run to its end, and once more Ctrl-C ends at once\n",
  )
  expect(said(false)).not.toContain("shots.parquet")
})
