import type { Argv } from "yargs"

/** Where a command writes; tests give their own. */
export interface Streams {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  /** Whether colours are wanted on either stream. */
  readonly colour: boolean
}

/** What a command returns to the shell. */
export const EXIT = {
  done: 0,
  /** The run failed after its first batch. */
  failed: 1,
  /** The file, the flags or the place to write are wrong, found before the first batch. */
  wrong: 2,
  interrupted: 130,
} as const

/** The parsed words and flags of one command. */
export type Arguments = Readonly<Record<string, unknown>>

/** What the module of a command exports as `command`; anything heavy is imported inside `run`. */
export interface Command {
  readonly options: (yargs: Argv) => Argv
  /** Returns the exit code. */
  readonly run: (given: Arguments, streams: Streams) => Promise<number>
}
