import yargs, { type Argv } from "yargs"
import { COMMANDS } from "./commands.ts"
import { flagMessage } from "./flag-message.ts"
import { EXIT_CODES, QUESTION } from "./general-help.ts"
import { printError } from "./print.ts"
import { type Arguments, EXIT, type Streams } from "./streams.ts"
import { version } from "./version.ts"

/**
 * Parses and runs one command line, without the program's own name, and returns the exit code. Never throws for what was
 * typed. Help is `width` columns wide.
 */
export async function runCommandLine(words: readonly string[], streams: Streams, width: number): Promise<number> {
  let code: number = EXIT.done
  let parser: Argv = yargs()
    .scriptName("goalmouth")
    .usage(`$0 <command>\n\n${QUESTION}`)
    .locale("en")
    .parserConfiguration({ "parse-numbers": false, "parse-positional-numbers": false })
    .exitProcess(false)
    .strict()
    .demandCommand(1, 1, "needs a command")
    .help()
    .alias("help", "h")
    .version(version())
    .wrap(width)
    .epilogue(EXIT_CODES)
    .fail((message: string | null, error: Error | undefined) => {
      throw error ?? new FlagError(message ?? "")
    })
  for (const entry of COMMANDS) {
    const options = async (own: Argv): Promise<Argv> => (await entry.load()).command.options(own)
    const handler = async (given: Arguments): Promise<void> => {
      code = await (await entry.load()).command.run(given, streams)
    }
    parser = parser.command(entry.usage, entry.describe, options as never, handler as never)
  }
  try {
    await parser.parseAsync([...words], {}, (_error, _given, output) => {
      if (output !== "") streams.out(`${output}\n`)
    })
    return code
  } catch (error) {
    const message = complaintOf(error)
    if (message === null) throw error
    printError(flagMessage(message, words, await knownFlags(words)), streams)
    return EXIT.wrong
  }
}

/** A command line that cannot be understood. */
class FlagError extends Error {}

/** What the parser says against the command line; null for any other error. Some of its own it throws past `fail`. */
function complaintOf(error: unknown): string | null {
  return error instanceof FlagError || (error instanceof Error && error.name === "YError") ? error.message : null
}

/** Names of the flags that the called command takes, and of the general ones. */
async function knownFlags(words: readonly string[]): Promise<string[]> {
  const called = words.find((word) => !word.startsWith("-"))
  const entry = COMMANDS.find(({ usage }) => usage.split(" ")[0] === called)
  const parser = yargs().help().version(version())
  if (entry !== undefined) (await entry.load()).command.options(parser)
  // the list of options is public in the parser but not in its types
  const { key } = (parser as unknown as { getOptions: () => { readonly key: object } }).getOptions()
  return Object.keys(key).filter((name) => !/[A-Z]/.test(name))
}
