import { readdirSync } from "node:fs"
import { join, relative } from "node:path"
import { fileURLToPath } from "node:url"

/** Folder of the experiments that come with the package. */
export const SHIPPED_FOLDER: string = fileURLToPath(new URL("../../experiments/", import.meta.url))

/** The shipped experiments by name, with a path to open each from here. */
export function shippedExperiments(): { readonly name: string; readonly path: string }[] {
  const files = readdirSync(SHIPPED_FOLDER).filter((file) => file.endsWith(".yaml"))
  return files.sort().map((file) => {
    const absolute = join(SHIPPED_FOLDER, file)
    const near = relative(process.cwd(), absolute)
    return { name: file.replace(/\.yaml$/, ""), path: near.startsWith("..") ? absolute : near }
  })
}
