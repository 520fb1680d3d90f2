/** Writing failed; the message says which path, why and what was there. The files of an earlier run are as they were. */
export class OutputError extends Error {
  override readonly name = "OutputError"
  readonly path: string
  /** Code of the file system: "ENOSPC", "EACCES" … */
  readonly code: string

  constructor(path: string, code: string, message: string, cause: unknown) {
    super(message, { cause })
    this.path = path
    this.code = code
  }
}

/** Rule that was broken and what was found, by code. */
const REASONS: Readonly<Record<string, readonly [string, string]>> = {
  ENOSPC: ["free space on the disk must be enough for the file", "none left"],
  EDQUOT: ["the disk quota must be enough for the file", "used up"],
  ENOTDIR: ["every name before the last must be a folder", "a file among them"],
  EEXIST: ["the output folder must be a folder", "a file of that name"],
  EISDIR: ["the name must be free or a file", "a folder of that name"],
  ENOTEMPTY: ["the name must be free or a file", "a folder of that name"],
  EACCES: ["the folder must be open to writing", "closed to this user"],
  EPERM: ["the folder must be open to writing", "closed to this user"],
  EROFS: ["the disk must be open to writing", "read-only"],
  ENOENT: ["the folder must exist or be possible to make", "missing"],
  ENAMETOOLONG: ["the path must be short enough for this disk", "too long"],
}

/** Turns what the file system said into an error a person can act on. */
export function outputError(path: string, cause: unknown): OutputError {
  if (cause instanceof OutputError) return cause
  const code = codeOf(cause)
  const [rule, found] = REASONS[code] ?? ["the place must take files", code]
  const mark = REASONS[code] === undefined ? "" : ` (${code})`
  return new OutputError(path, code, `Cannot write ${path} as ${rule}: current value is ${found}${mark}`, cause)
}

function codeOf(cause: unknown): string {
  if (typeof cause === "object" && cause !== null && "code" in cause) return String(cause.code)
  return cause instanceof Error ? cause.message : String(cause)
}
