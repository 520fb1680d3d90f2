import { goalmouth } from "../../src/cli/goalmouth.ts"

/** What a command line did: its exit code and what it printed. */
export interface Ran {
  readonly code: number
  readonly out: string
  readonly err: string
}

/** Runs one command line in this process, without colours. */
export async function commandLine(...words: string[]): Promise<Ran> {
  const out: string[] = []
  const err: string[] = []
  const code = await goalmouth(words, {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    colour: false,
  })
  return { code, out: out.join(""), err: err.join("") }
}
