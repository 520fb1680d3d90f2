import type { Problem } from "../experiments/read/read-experiment.ts"
import { colours, printJson, wrapped } from "./print.ts"
import { type Command, EXIT } from "./streams.ts"

export const command: Command = {
  options: (yargs) => yargs.option("json", { type: "boolean", describe: "Print the list as JSON" }),
  run: async (given, streams) => {
    const { shippedExperiments } = await import("../experiments/shipped.ts")
    const { readExperiment } = await import("../experiments/read/read-experiment.ts")
    const rows = shippedExperiments().map(({ name, path }) => {
      const result = readExperiment(path)
      const problems: readonly Problem[] = "problems" in result ? result.problems : []
      const question = "experiment" in result ? result.experiment.question : (problems[0]?.text ?? "")
      return { name, path, question }
    })
    if (given.json === true) printJson(rows, streams)
    else {
      const { bold } = colours(streams)
      for (const { name, question } of rows) streams.out(`${bold(name)}\n${wrapped(question, 100, "    ")}\n`)
      const [first] = rows
      if (first !== undefined) streams.out(`\nRun one with goalmouth run ${first.path}\n`)
    }
    return EXIT.done
  },
}
