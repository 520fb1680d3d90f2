import { EXIT, type Streams } from "./streams.ts"

/**
 * The first Ctrl-C, or the first wish of the system that the process end, ends the run after the shots in hand; the
 * second ends the process at once, after `last`.
 */
export function watchInterrupt(streams: Streams, last: () => void): { asked: () => boolean; end: () => void } {
  let asked = false
  const listen = () => {
    if (asked) {
      last()
      process.exit(EXIT.interrupted)
    }
    asked = true
    streams.err("Stopping after the shots in hand; what is done is written, and once more Ctrl-C ends at once\n")
  }
  const signals = ["SIGINT", "SIGTERM"] as const
  for (const signal of signals) process.on(signal, listen)
  return {
    asked: () => asked,
    end: () => {
      for (const signal of signals) process.off(signal, listen)
    },
  }
}
