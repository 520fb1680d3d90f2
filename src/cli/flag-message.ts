import { suggestion } from "../experiments/read/nearest.ts"
import { joinOr } from "../experiments/wording.ts"
import { COMMAND_NAMES, COMMANDS } from "./commands.ts"

/** The parser's complaint in the house's grammar: what was read, what it must be, and what to do. */
export function flagMessage(message: string, words: readonly string[], parserFlags: readonly string[]): string {
  const command = words.find((word) => !word.startsWith("-"))
  // the parser also takes a positional by its name, which nobody needs to know
  const usage = COMMANDS.find((entry) => entry.usage.split(" ")[0] === command)?.usage ?? ""
  const flags = parserFlags.filter((flag) => !new RegExp(`[<[]${flag}\\b`).test(usage))
  const problem = (name: string, rule: string, current: string, remedy: string): string =>
    `Cannot read ${["goalmouth", ...words].join(" ")} as ${name} must be ${rule}: current value is ${current} (${remedy})`
  if (command === undefined || !COMMAND_NAMES.includes(command)) {
    const remedy =
      (command === undefined ? null : suggestion(command, COMMAND_NAMES)) ?? "goalmouth --help explains them"
    return problem("the command", `one of ${joinOr(COMMAND_NAMES)}`, command ?? "nothing", remedy)
  }
  const help = `goalmouth ${command} --help shows them`
  const unknown = words.map(flagName).find((name) => name !== null && !parserFlags.includes(name))
  if (unknown !== undefined && unknown !== null) {
    const near = suggestion(unknown, flags)?.replace("mean ", "mean --")
    return problem("the flag", `one of ${joinOr(flags.map((flag) => `--${flag}`))}`, `--${unknown}`, near ?? help)
  }
  const bare = /^Not enough arguments following: (.*)$/.exec(message)?.[1]
  if (bare !== undefined) return problem(`--${bare}`, "followed by a value", "nothing", "write one after it")
  if (message.startsWith("Not enough non-option arguments")) {
    const remedy = command === "survey" ? "experiments/rinks has two to copy" : "goalmouth list shows the shipped ones"
    return problem("the file", `named after ${command}`, "nothing", remedy)
  }
  const extra = /^Unknown (?:argument|command)s?: (.*)$/.exec(message)?.[1]
  if (extra !== undefined) return problem("the words", `no more than ${command} takes`, extra, help)
  return problem("the flags", "understood", message.replaceAll(/\s+/g, " "), help)
}

/** Name of a long flag without its dashes and value; null for any other word. `--no-x` speaks of x. */
function flagName(word: string): string | null {
  return /^--(?:no-)?([^=]+)/.exec(word)?.[1] ?? null
}
