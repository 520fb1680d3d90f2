import type { Command } from "./streams.ts"

/** One line of `goalmouth --help`; the module is loaded when its command is called. */
export interface Entry {
  readonly usage: string
  readonly describe: string
  readonly load: () => Promise<{ readonly command: Command }>
}

/** All commands in the order of the help. */
export const COMMANDS: readonly Entry[] = [
  {
    usage: "run <file>",
    describe: "Run an experiment and write its tables, charts and report",
    load: () => import("./run.ts"),
  },
  {
    usage: "check <file..>",
    describe: "Read experiment files and report every problem, without running them",
    load: () => import("./check.ts"),
  },
  {
    usage: "replay <file>",
    describe: "Tell one shot of a run step by step",
    load: () => import("./replay.ts"),
  },
  {
    usage: "survey <file>",
    describe: "Tell how far each cue leads off the angle on a strange rink, from its marks",
    load: () => import("./survey.ts"),
  },
  {
    usage: "new [name]",
    describe: "Write a commented experiment file to start from",
    load: () => import("./new.ts"),
  },
  {
    usage: "measure [readings]",
    describe: "Make a goalie file from what a coach can time at the rink",
    load: () => import("./measure.ts"),
  },
  {
    usage: "list",
    describe: "List the shipped experiments and the question each answers",
    load: () => import("./list.ts"),
  },
  {
    usage: "parameters [filter]",
    describe: "List every quantity and choice with its default, range, unit and source",
    load: () => import("./parameters.ts"),
  },
]

/** The words that name commands. */
export const COMMAND_NAMES: readonly string[] = COMMANDS.map((entry) => entry.usage.split(" ")[0]!)
