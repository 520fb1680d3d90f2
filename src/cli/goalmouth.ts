import { helpText, WIDEST_HELP } from "./general-help.ts"
import { EXIT, type Streams } from "./streams.ts"
import { version } from "./version.ts"

/** A narrower terminal than this gets the parser's own help. */
const NARROWEST = 60

/** Runs one command line, without the program's own name, and returns the exit code. Never throws for what was typed. */
export async function goalmouth(words: readonly string[], streams: Streams): Promise<number> {
  const width = Math.min(WIDEST_HELP, process.stdout.columns ?? WIDEST_HELP)
  const [word] = words
  const isAlone = words.length === 1
  if (isAlone && (word === "--help" || word === "-h") && width >= NARROWEST) {
    streams.out(`${helpText(width)}\n`)
    return EXIT.done
  }
  if (isAlone && word === "--version") {
    streams.out(`${version()}\n`)
    return EXIT.done
  }
  const { runCommandLine } = await import("./command-line.ts")
  return runCommandLine(words, streams, width)
}
