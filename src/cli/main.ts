#!/usr/bin/env node
import pc from "picocolors"
import { goalmouth } from "./goalmouth.ts"
import { optimiseLater } from "./patience.ts"

optimiseLater()

// a reader that closes early, such as head, is no failure
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0)
  throw error
})

process.exitCode = await goalmouth(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  colour: pc.isColorSupported,
})
