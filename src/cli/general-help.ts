import { COMMANDS } from "./commands.ts"

export const QUESTION = "Where should this goalie stand, how, and how sure are we?"
export const EXIT_CODES = "Exit codes: 0 done, 1 failed while running, 2 file, flags or place wrong, 130 interrupted."
/** No line of a help is longer, however wide the terminal. */
export const WIDEST_HELP = 100

const OPTIONS = [
  ["-h, --help     ", "Show help"],
  ["    --version  ", "Show version number"],
] as const

/**
 * The general help, as the parser would print it. To load the parser takes longer than all the rest of the program's
 * start, and the general help needs none of it.
 */
export function helpText(width: number): string {
  const usages = COMMANDS.map(({ usage }) => `  goalmouth ${usage}  `)
  const left = Math.max(...usages.map(({ length }) => length))
  const commands = COMMANDS.map(({ describe }, i) => {
    const lines = linesOf(describe, width - left)
    return usages[i]!.padEnd(left) + lines.join(`\n${" ".repeat(left)}`)
  })
  const options = OPTIONS.map(([flags, describe]) => `  ${flags}${describe}`.padEnd(width - 9) + "[boolean]")
  return [
    `goalmouth <command>\n\n${QUESTION}\n`,
    ["Commands:", ...commands, ""].join("\n"),
    ["Options:", ...options, ""].join("\n"),
    linesOf(EXIT_CODES, width).join("\n"),
  ].join("\n")
}

function linesOf(text: string, width: number): string[] {
  const lines: string[] = []
  let line = ""
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line)
      line = ""
    }
    line += line === "" ? word : ` ${word}`
  }
  return [...lines, line]
}
