import { describe, expect, test } from "vitest"
import { COMMAND_NAMES } from "../../src/cli/commands.ts"
import { filesBelow, textOf } from "./tree.ts"

const TEXT = /\.(ts|mjs|js|json|ya?ml|md|css|html|csv|txt|sh)$|(^|\/)(LICENSE|NOTICE|\.gitignore|run)$/

/** Everything committed that a person can read. Known answers of others stay as they were published. */
const FILES = filesBelow(".").filter((path) => TEXT.test(path) && !path.startsWith("tests/published/data/"))

/** Built from halves, so that this list does not find itself. */
function words(...halves: readonly (readonly [string, string])[]): RegExp {
  return new RegExp(halves.map((half) => half.join("")).join("|"), "i")
}

/** Where and in which of the files a pattern is found, as "path:line text". */
function found(pattern: RegExp, files: readonly string[] = FILES): string[] {
  return files.flatMap((path) =>
    textOf(path)
      .split("\n")
      .flatMap((line, i) => (pattern.test(line) ? [`${path}:${i + 1} ${line.trim().slice(0, 120)}`] : [])),
  )
}

describe("what is committed", () => {
  // seen to fail: each list with a word of its own written into a comment
  test("names no host that packages come from", () => {
    const hosts = words(
      ["registry\\.", "npmjs"],
      ["registry\\.", "yarnpkg"],
      ["npm\\.pkg\\.", "github"],
      ["\\bverdac", "cio\\b"],
      ["https?://[^\\s\"')]*reg", "istry"],
      ["_auth", "Token"],
    )
    expect(found(hosts)).toEqual([])
  })

  test("names no path of the machine it was written on", () => {
    const paths = words(
      ["(?<![\\w.])/wo", "rk/"],
      ["(?<![\\w.])/tm", "p/"],
      ["(?<![\\w.])/ho", "me/\\w"],
      ["(?<![\\w.])/ro", "ot/"],
      ["(?<![\\w.])/Us", "ers/\\w"],
      ["\\b[A-Z]:\\\\\\\\Us", "ers"],
    )
    expect(found(paths)).toEqual([])
  })

  test("speaks of the project and not of how the work on it was shared out", () => {
    const organising = words(
      ["\\bhelp", "ers?\\b"],
      ["\\bsub-?ag", "ents?\\b"],
      ["\\bag", "ents?\\b"],
      ["\\blanguage mo", "dels?\\b"],
      ["\\bchat", "bot"],
      ["\\bproto", "typ(e|ed|ing)\\b"],
      ["\\bfeasi", "bility\\b"],
      ["\\bless", "ons? learn"],
      ["\\biss", "ues? (#|no\\.? ?|number )?\\d"],
      ["/iss", "ues/\\d"],
      ["\\bas instr", "ucted\\b"],
      ["\\bsha", "red/(facts|data|design|model|style)"],
      ["\\bTO", "DO\\b"],
      ["\\bFIX", "ME\\b"],
    )
    const own = FILES.filter((path) => path !== "package-lock.json" && path !== "LICENSE")
    expect(found(organising, own)).toEqual([])
  })

  // seen to fail: a file of the README renamed
  test("names in its two pages only files and scripts that are there", () => {
    const scripts = JSON.parse(textOf("package.json")).scripts as Readonly<Record<string, string>>
    const known = new Set(
      filesBelow(".").flatMap((path) => [path, path.replace(/^src\//, ""), path.replace(/^tests\//, "")]),
    )
    const isThere = (path: string) => {
      const start = path.replace(/(\*\.\w+)?$/, "").replace(/\/$/, "")
      return known.has(path) || [...known].some((file) => file.startsWith(`${start}/`) || file.startsWith(`${start}.`))
    }
    const wrong = ["README.md", "DEVELOPERS.md"].flatMap((page) => {
      const text = textOf(page)
      const quoted = [...text.matchAll(/`([\w./*-]+)`/g)].map((match) => match[1]!)
      const paths = quoted.filter((name) => name.includes("/") && !name.startsWith("out/"))
      const links = [...text.matchAll(/\]\((?!http)([^)#]+)\)/g)].map((match) => match[1]!)
      const runs = [...text.matchAll(/npm (?:run )?(start|test|\w+)\b/g)].map((match) => match[1]!)
      return [
        ...[...paths, ...links].filter((path) => !isThere(path)),
        ...runs.filter((name) => !["ci", "run"].includes(name) && scripts[name] === undefined),
      ]
    })
    expect(wrong).toEqual([])
  })

  // seen to fail: a command's row taken out of the table
  test("shows every command in the README", () => {
    const readme = textOf("README.md")
    expect(COMMAND_NAMES.filter((name) => !new RegExp(`\\| \`${name}\\b`).test(readme))).toEqual([])
  })

  test("keeps the top level to what a newcomer needs to see", () => {
    const top = [
      ...["README.md", "DEVELOPERS.md", "LICENSE", "NOTICE", "package.json", "package-lock.json", "biome.json"],
      ...["tsconfig.json", "tsconfig.build.json", "tsconfig.pure.json", "vitest.config.ts", "rolldown.config.mjs"],
      ...["src", "experiments", "tests", "benchmarks", "out", ".gitignore", ".ci"],
    ]
    const there = new Set(filesBelow(".").map((path) => path.split("/")[0]!))
    expect([...there].filter((name) => !top.includes(name))).toEqual([])
  })
})
