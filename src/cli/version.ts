import { readFileSync } from "node:fs"

/** Version of this package, from its own manifest. */
export function version(): string {
  const manifest = readFileSync(new URL("../../package.json", import.meta.url), "utf8")
  return (JSON.parse(manifest) as { version: string }).version
}
