import { readdirSync, readFileSync, statSync } from "node:fs"
import { basename, dirname, isAbsolute, join } from "node:path"
import { nearest } from "./nearest.ts"
import { type Place, type Problem, type ProblemFacts, type ProblemKind, problemAt } from "./problem.ts"

/** A larger file is not an experiment, a goalie or a list of spots. */
export const MOST_BYTES = 1024 * 1024

/** Who asked for a file: the command line, or a key of another file. */
export interface Asker {
  readonly place: Place
  /** What the file is: "the file", "goalie.file". */
  readonly key: string
  /** What helps where there is no such file, unless it is a slip of the pen; a key's path unless given. */
  readonly missing?: string
}

/** The path of a file that another names: from the root, or from the folder of the file that names it. */
export function pathFrom(folder: string, name: string): string {
  return isAbsolute(name) ? name : join(folder, name)
}

/** The text of a file, or null with one problem that says what stood in the way. */
export function readTextFile(path: string, asker: Asker, problems: Problem[]): string | null {
  const report = (facts: Omit<ProblemFacts, "key">): null => {
    problems.push(problemAt(asker.place, { key: asker.key, ...facts }))
    return null
  }
  let bytes: Buffer
  try {
    const status = statSync(path)
    if (!status.isFile()) {
      const current = status.isDirectory() ? `the folder ${path}` : `${path}, which is no plain file`
      return report({ kind: "not a file", rule: "a file", current, remedy: "name a file in it" })
    }
    if (status.size > MOST_BYTES) {
      const current = `${path} with ${(status.size / MOST_BYTES).toFixed(1)} MiB`
      return report({ kind: "too large", rule: "a file of at most 1 MiB", current })
    }
    bytes = readFileSync(path)
  } catch (error) {
    return report(accessFacts(path, error, asker.missing))
  }
  return decode(path, bytes, report)
}

/** What an error of the file system means for the person, and what helps where the file is missing. */
export function accessFacts(path: string, error: unknown, missing = NAMED_BY_A_KEY): Omit<ProblemFacts, "key"> {
  const code = (error as { code?: string }).code ?? "unknown error"
  const known = ACCESS[code]
  if (known === undefined) {
    return { kind: "unreadable", rule: "a file that can be read", current: `${path} (${code})`, remedy: null }
  }
  const near = code === "ENOENT" ? nearestFile(path) : null
  const far = code === "ENOENT" ? missing : known.remedy
  const remedy = near === null ? far : `did you mean ${near}?`
  return { kind: known.kind, rule: known.rule, current: `${path}, ${known.current}`, remedy }
}

const NAMED_BY_A_KEY = "a path starts from the folder of the file that names it"

const ACCESS: Readonly<
  Record<
    string,
    { readonly kind: ProblemKind; readonly rule: string; readonly current: string; readonly remedy: string }
  >
> = {
  ENOENT: {
    kind: "no such file",
    rule: "an existing file",
    current: "which does not exist",
    remedy: NAMED_BY_A_KEY,
  },
  ENOTDIR: {
    kind: "path through a file",
    rule: "an existing file",
    current: "which leads through a file as if it were a folder",
    remedy: "check each part of the path",
  },
  EACCES: {
    kind: "unreadable",
    rule: "a file that can be read",
    current: "which you may not read",
    remedy: "change its permissions",
  },
}

function nearestFile(path: string): string | null {
  try {
    const folder = dirname(path)
    const names = readdirSync(folder).filter((name) => /\.(ya?ml|csv)$/.test(name))
    const stem = (name: string): string => name.replace(/\.[a-z]+$/, "")
    const near = names.find((name) => stem(name) === nearest(stem(basename(path)), names.map(stem))) ?? null
    return near === null ? null : folder === "." ? near : join(folder, near)
  } catch {
    return null
  }
}

function decode(path: string, bytes: Buffer, report: (facts: Omit<ProblemFacts, "key">) => null): string | null {
  let text: string
  try {
    text = new TextDecoder("utf-8", { fatal: true }).decode(bytes)
  } catch {
    return report({ kind: "not text", rule: "text in UTF-8", current: `${path}, which holds other bytes` })
  }
  if (text.includes("\u0000")) {
    return report({ kind: "not text", rule: "text in UTF-8", current: `${path}, which is binary` })
  }
  if (text.replaceAll(/^\s*#.*$/gm, "").trim() === "") {
    const remedy = "goalmouth new writes a file to start from"
    return report({ kind: "empty", rule: "a file with content", current: `${path}, which is empty`, remedy })
  }
  return text
}
