import { readdirSync, readFileSync, rmSync } from "node:fs"
import { dirname, join, posix, relative, sep } from "node:path"
import { fileURLToPath } from "node:url"

/**
 * Puts what a process and its threads begin with into few files, the packages they use among them: to look for a file and
 * to open it takes longer than to read what stands in it. The rest of dist stays a file for a file, for the library.
 */

const SOURCE = fileURLToPath(new URL("src", import.meta.url))
const PARTS = fileURLToPath(new URL("dist/parts", import.meta.url))
/** Packages that look for files of their own beside them. */
const FOREIGN = ["@resvg/resvg-js", "piscina", "yargs"]
/** Stands before a place below dist until the file is known that looks for it. */
const MARK = "place of "

rmSync(PARTS, { recursive: true, force: true })

export default [
  bundle("experiments/run/worker", "worker"),
  bundle("experiments/charts/draw-worker", "draw-worker"),
  bundle("cli/main", "main"),
]

/**
 * One entry, with parts of its own in `folder` for what is loaded only when it is asked for. All in one file would wrap every
 * module in a function, and its constants would be variables, which V8 loads anew at every use.
 */
function bundle(entry, folder) {
  return {
    input: { [entry]: `src/${entry}.ts` },
    platform: "node",
    external: FOREIGN,
    plugins: [ownPlaces(), licences(entry)],
    output: {
      dir: "dist",
      format: "esm",
      entryFileNames: "[name].js",
      chunkFileNames: `parts/${folder}/[name].js`,
      // names stay, for who reads where an error came from
      minify: { compress: false, mangle: false, codegen: { removeWhitespace: true } },
    },
  }
}

/** A module that looks for files beside itself finds them, whichever file it is put into. */
function ownPlaces() {
  return {
    name: "own-places",
    transform(code, id) {
      if (!id.startsWith(SOURCE) || !code.includes("import.meta.url")) return null
      const place = relative(SOURCE, id).split(sep).join("/").replace(/\.ts$/, ".js")
      return code.replaceAll("import.meta.url", `new URL(${JSON.stringify(MARK + place)}, import.meta.url).href`)
    },
    renderChunk(code, { fileName }) {
      return code.replaceAll(new RegExp(`(["'\`])${MARK}([^"'\`]+)\\1`, "g"), (_, quote, place) => {
        const from = posix.relative(dirname(fileName), place)
        return quote + (from.startsWith(".") ? from : `./${from}`) + quote
      })
    },
  }
}

/** Writes the licences of the packages that were put in beside the file. */
function licences(entry) {
  return {
    name: "licences",
    generateBundle(_, files) {
      const modules = Object.values(files).flatMap(({ moduleIds }) => moduleIds ?? [])
      const folders = modules.map((id) => /^.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+/.exec(id)?.[0])
      const texts = [...new Set(folders)].filter((folder) => folder !== undefined).map(licenceOf)
      this.emitFile({ type: "asset", fileName: `${entry}.licences.txt`, source: texts.sort().join("\n\n") })
    },
  }
}

function licenceOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"))
  const file = readdirSync(folder).find((one) => /^licen[cs]e/i.test(one))
  return `${name} ${version} (${license})\n\n${file === undefined ? "" : readFileSync(join(folder, file), "utf8")}`
}
