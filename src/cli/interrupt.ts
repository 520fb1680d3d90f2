import { EXIT, type Streams } from "./streams.ts"

/**
 * The first Ctrl-C, or the first wish of the system that the process end, ends the run after the shots in hand; the
 * second ends the process at once, after `last`. With `keeps` it is said that the shots kept are written by a run that comes
 * to its end alone.
 */
export function watchInterrupt(
  streams: Streams,
  last: () => void,
  keeps = false,
): { asked: () => boolean; end: () => void } {
  let asked = false
  const listen = () => {
    if (asked) {
      last()
      process.exit(EXIT.interrupted)
    }
    asked = true
    const kept = keeps ? ", shots.parquet once the same command has carried the run to its end" : ""
    streams.err(`Stopping after the shots in hand; what is done is written${kept}, and once more Ctrl-C ends at once\n`)
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
