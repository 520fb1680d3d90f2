import { spawn } from "node:child_process"
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs"
import { join } from "node:path"
import { fileURLToPath } from "node:url"

export const MAIN = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url))

/** Runs the built program; kills it after `killAfter` milliseconds, or calls it hung after `hungAfter`. */
export function program(words, { killAfter = null, hungAfter = 300_000 } = {}) {
  const child = spawn(process.execPath, [MAIN, ...words], { stdio: ["ignore", "pipe", "pipe"] })
  const text = { out: "", err: "" }
  child.stdout.on("data", (more) => {
    text.out += more
  })
  child.stderr.on("data", (more) => {
    text.err += more
  })
  let hung = false
  const timer = setTimeout(() => {
    hung = killAfter === null
    child.kill("SIGKILL")
  }, killAfter ?? hungAfter)
  return new Promise((resolve) => {
    child.on("close", (code, signal) => {
      clearTimeout(timer)
      resolve({ code, signal, hung, ...text })
    })
  })
}

/** Files below a folder, by path; none where there is no folder. */
export function filesBelow(folder) {
  if (!existsSync(folder)) return []
  return readdirSync(folder, { recursive: true })
    .map(String)
    .filter((path) => statSync(join(folder, path)).isFile())
    .sort()
}

/** Everything a run wrote but the manifest, as one text to compare. */
export function bytesBelow(folder) {
  const paths = filesBelow(folder).filter((path) => path !== "manifest.json")
  return paths.map((path) => `${path} ${readFileSync(join(folder, path)).toString("base64")}`).join("\n")
}

/** Whether a text holds the trace of an error nobody caught, or a word of the runtime itself. */
export function hasTrace(text) {
  return /^\s+at .*:\d+:\d+\)?$|^\(node:\d+\)|\b(Type|Reference|Range|Syntax)Error\b/m.test(text)
}
