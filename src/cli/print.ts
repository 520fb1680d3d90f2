import pc from "picocolors"
import type { Streams } from "./streams.ts"

/** Colours for these streams: none when they are not wanted. */
export function colours(streams: Streams): ReturnType<typeof pc.createColors> {
  return pc.createColors(streams.colour)
}

/** One message on the error stream. */
export function printError(message: string, streams: Streams): void {
  streams.err(`${colours(streams).red(message)}\n`)
}

/** Any value as JSON on standard output; numbers that JSON has no word for become null. */
export function printJson(value: unknown, streams: Streams): void {
  streams.out(`${JSON.stringify(value, null, 2)}\n`)
}

/** Text broken between words, every line indented. */
export function wrapped(text: string, width: number, indent: string): string {
  const lines: string[] = []
  let line = indent
  for (const word of text.split(" ")) {
    if (line.length > indent.length && line.length + 1 + word.length > width) {
      lines.push(line)
      line = indent
    }
    line += line.length > indent.length ? ` ${word}` : word
  }
  return [...lines, line].join("\n")
}
