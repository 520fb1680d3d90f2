import { writeFileSync } from "node:fs"
import { type ProblemFacts, problemAt } from "../experiments/read/problem.ts"
import { starterText } from "../experiments/starter.ts"
import { colours, printError, printJson } from "./print.ts"
import { type Command, EXIT, type Streams } from "./streams.ts"

export const command: Command = {
  options: (yargs) =>
    yargs
      .positional("name", { type: "string", default: "experiment", describe: "File to write; .yaml is added" })
      .option("json", { type: "boolean", describe: "Print the path that was written as JSON" }),
  run: async (given, streams) => {
    const name = String(given.name)
    const path = /\.ya?ml$/i.test(name) ? name : `${name}.yaml`
    try {
      // "wx" never replaces a file, not even one that appears this moment
      writeFileSync(path, starterText(), { flag: "wx" })
    } catch (error) {
      return fail(path, error, given.json === true, streams)
    }
    if (given.json === true) printJson({ written: path }, streams)
    else streams.out(`${colours(streams).green(`Wrote ${path}`)}\nCheck it with goalmouth check ${path}\n`)
    return EXIT.done
  },
}

function fail(path: string, error: unknown, json: boolean, streams: Streams): number {
  const problem = problemAt({ file: path, line: null, column: null }, writeFacts(path, error), "write")
  if (json) printJson({ written: null, problems: [problem] }, streams)
  else printError(problem.text, streams)
  return EXIT.wrong
}

/** What a failed write means for the person. */
export function writeFacts(path: string, error: unknown): ProblemFacts {
  const code = (error as { code?: string }).code ?? "unknown error"
  const key = "the file"
  switch (code) {
    case "EEXIST":
      return { kind: "not a file", key, rule: "new", current: "one that exists already", remedy: "choose another name" }
    case "ENOENT":
      return {
        kind: "no such file",
        key,
        rule: "in a folder that exists",
        current: path,
        remedy: "make the folder first",
      }
    case "ENOTDIR":
      return { kind: "path through a file", key, rule: "in a folder", current: `${path}, which leads through a file` }
    default:
      return { kind: "unreadable", key, rule: "in a place you may write to", current: `${path} (${code})` }
  }
}
