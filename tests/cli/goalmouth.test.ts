import { spawnSync } from "node:child_process"
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { runCommandLine } from "../../src/cli/command-line.ts"
import { COMMAND_NAMES } from "../../src/cli/commands.ts"
import { helpText, WIDEST_HELP } from "../../src/cli/general-help.ts"
import { SETTING_KEYS } from "../../src/experiments/grammar.ts"
import { shippedExperiments } from "../../src/experiments/shipped.ts"
import { commandLine, type Ran } from "./in-process.ts"

const MAIN = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url))
let folder = ""

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-cli-"))
})
afterAll(() => rmSync(folder, { recursive: true }))

const run = commandLine

/** One command line in a process of its own, as a person calls it. */
function call(words: readonly string[], environment: Readonly<Record<string, string>> = {}): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...words], {
    encoding: "utf8",
    env: { ...process.env, ...environment },
  })
  return { code: status ?? -1, out: stdout, err: stderr }
}

function write(name: string, content: string): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

describe("goalmouth", () => {
  test("--help names every command and the exit codes", async () => {
    const { code, out } = await run("--help")
    expect(code).toBe(0)
    for (const name of [...COMMAND_NAMES, "Exit codes"]) expect(out).toContain(name)
  })

  // seen to fail: a description changed in the list for the parser alone; words broken one column too late
  test("--help is what the parser would print, at any width", async () => {
    for (let width = 60; width <= WIDEST_HELP; width++) {
      const printed: string[] = []
      const streams = { out: (text: string) => void printed.push(text), err: () => undefined, colour: false }
      expect(await runCommandLine(["--help"], streams, width)).toBe(0)
      expect(printed.join(""), `${width} columns`).toBe(`${helpText(width)}\n`)
    }
  })

  test("--version prints the version of the package", async () => {
    const manifest = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8")) as {
      version: string
    }
    expect(await run("--version")).toEqual({ code: 0, out: `${manifest.version}\n`, err: "" })
  })

  test.each<[string, string[], string]>([
    ["an unknown command gets the nearest", ["chekc"], "current value is chekc (did you mean check?)"],
    ["no command", [], "as the command must be one of"],
    ["a flag alone", ["--fast"], "as the command must be one of"],
    [
      "an unknown flag gets the nearest",
      ["check", "a.yaml", "--shot", "300"],
      "current value is --shot (did you mean --shots?)",
    ],
    ["an unknown flag that swallows the file", ["check", "--deep", "a.yaml"], "as the flag must be one of --help"],
    ["a file too few", ["check"], "as the file must be named after check: current value is nothing (goalmouth list"],
    [
      "a word too many",
      ["list", "everything"],
      "as the words must be no more than list takes: current value is everything",
    ],
    ["a flag without its value", ["check", "a.yaml", "--seed"], "as --seed must be followed by a value"],
  ])("answers %s in one message with code 2", async (_name, words, part) => {
    const { code, out, err } = await run(...words)
    expect({ code, out, lines: err.trimEnd().split("\n").length }).toEqual({ code: 2, out: "", lines: 1 })
    expect(err).toMatch(/^Cannot read goalmouth .* must be .*: current value is /)
    expect(err).toContain(part)
  })
})

describe("check", () => {
  test("reads the shipped experiments clean", async () => {
    const paths = shippedExperiments().map(({ path }) => path)
    const { code, out, err } = await run("check", ...paths)
    expect({ code, err }).toEqual({ code: 0, err: "" })
    expect(out.match(/reads clean/g)).toHaveLength(paths.length)
  })

  // seen to fail: the warnings of a file that reads clean are not printed
  test("says which charts of a file will not be drawn, and why", async () => {
    const file = write("bars.yaml", "question: x\nsweep: { goalie.stance: [set, butterfly] }\ncharts: [bars, curve]")
    const { code, out, err } = await run("check", file)
    expect(code).toBe(0)
    expect(out).toContain("bars.yaml reads clean")
    expect(err.trim()).toBe(
      'The chart "curve" will not be drawn as it needs a swept quantity that is a number. Sweep one, or ask for bars',
    )
    const json = await run("check", "--json", file)
    expect(JSON.parse(json.out)[0].warnings).toEqual([err.trim()])
  })

  test("prints each problem of each file and returns 2", async () => {
    const good = write("good.yaml", "question: x")
    const bad = write("bad.yaml", "question: 1\nshots: 1\n")
    const { code, out, err } = await run("check", good, bad)
    expect(code).toBe(2)
    expect(out).toContain("good.yaml reads clean")
    expect(err.trimEnd().split("\n")).toHaveLength(3)
    expect(err).toContain("2 problems")
  })

  test("--json gives the plan, or the problems with their places", async () => {
    const good = write("good.yaml", "question: x\nsweep: { goalie.depth: [1 m, 2 m] }")
    const bad = write("bad.yaml", "question: x\ngoalie.depth: 12 m\n")
    const { code, out, err } = await run("check", "--json", good, bad)
    expect({ code, err }).toEqual({ code: 2, err: "" })
    expect(JSON.parse(out)).toMatchObject([
      { clean: true, points: 2, swept: [{ key: "goalie.depth", values: 2 }] },
      { clean: false, problems: [{ kind: "out of range", line: 2, column: 1, key: "goalie.depth", current: "12 m" }] },
    ])
  })

  // seen to fail: the shots as the file has them
  test("says how many shots are fired, at a point and at all, and how many were asked for", async () => {
    const good = write("good.yaml", "question: x\nsweep: { goalie.depth: [1 m, 2 m] }\nshots: 256")
    expect((await run("check", good)).out).toContain(
      " · 512 shots a point (256 rounded up to whole batches), 1,024 for 2 points · ",
    )
    expect((await run("check", good, "--shots", "24576")).out).toContain(" · 24,576 shots a point, 49,152 for 2 points")
    expect((await run("check", good, "--shots", "20000", "--half-width", "1%")).out).toContain(
      " · at most 20,480 shots a point (20,000 rounded up to whole batches), 40,960 for 2 points, or until ± 1 % is known",
    )
    expect(JSON.parse((await run("check", good, "--json")).out)).toMatchObject([{ shots: 256, fired: 512 }])
  })

  // seen to fail: a limit that is no whole number of batches
  test("never rounds shots up beyond the limit that it states", async () => {
    const good = write("good.yaml", "question: x")
    const { err } = await run("check", good, "--shots", "2000000000")
    const limit = /from 100 to ([\d,]+)/.exec(err)![1]!
    const { out } = await run("check", good, "--shots", String(Number(limit.replaceAll(",", "")) - 1))
    expect(out).toContain(` · ${limit} shots a point (`)
  })

  test("takes flags through the same checks", async () => {
    const good = write("good.yaml", "question: x")
    expect(
      (await run("check", good, "--set", "goalie.depth=1 m", "--set", "goalie.hands=tucked", "--shots", "500")).code,
    ).toBe(0)
    const { code, err } = await run("check", good, "--set", "goalie.depth=12 m", "--half-width", "2")
    expect(code).toBe(2)
    expect(err.trimEnd().split("\n")).toHaveLength(3)
  })
})

describe("new", () => {
  test("writes a file that checks clean", async () => {
    const path = join(folder, "fresh")
    expect((await run("new", path)).code).toBe(0)
    expect(await run("check", `${path}.yaml`)).toMatchObject({ code: 0, err: "" })
  })

  // mutation seen red: flag "w" in place of "wx"
  test("refuses a name that exists, a missing folder, a path through a file and a folder's name", async () => {
    const path = write("mine.yaml", "question: mine")
    mkdirSync(join(folder, "taken.yaml"))
    const before = readdirSync(folder).sort()
    const messages: string[] = []
    for (const name of ["mine", "nowhere/new", "mine.yaml/new", "taken"]) {
      const { code, err } = await run("new", join(folder, name))
      expect(code).toBe(2)
      messages.push(err.replaceAll(`${folder}/`, ""))
    }
    expect(messages).toEqual([
      "Cannot write mine.yaml as the file must be new: current value is one that exists already (choose another name)\n",
      "Cannot write nowhere/new.yaml as the file must be in a folder that exists: current value is nowhere/new.yaml (make the folder first)\n",
      "Cannot write mine.yaml/new.yaml as the file must be in a folder: current value is mine.yaml/new.yaml, which leads through a file\n",
      "Cannot write taken.yaml as the file must be new: current value is one that exists already (choose another name)\n",
    ])
    expect(readFileSync(path, "utf8")).toBe("question: mine")
    expect(readdirSync(folder).sort()).toEqual(before)
  })
})

describe("list and parameters", () => {
  test("list shows each shipped experiment with its question", async () => {
    const rows = JSON.parse((await run("list", "--json")).out) as { name: string; question: string }[]
    expect(rows.map((row) => row.name)).toEqual(shippedExperiments().map(({ name }) => name))
    for (const row of rows) expect(row.question).toMatch(/\?$/)
    expect((await run("list")).out).toContain(rows[0]!.question.slice(0, 40))
  })

  test("parameters shows every parameter with default, range, source and reason", async () => {
    const rows = JSON.parse((await run("parameters", "--json")).out) as Record<string, unknown>[]
    expect(rows.map((row) => row.key).sort()).toEqual([...SETTING_KEYS].sort())
    for (const row of rows) {
      expect(row).toMatchObject({ default: expect.any(String), source: expect.any(String), why: expect.any(String) })
    }
  })

  test("parameters can be narrowed to a word", async () => {
    const { out } = await run("parameters", "play.distance")
    expect(out).toMatch(/^play\.distance {2}8 m$/m)
    expect(out).not.toContain("goalie.stature")
    // seen to fail: nothing near looked for
    expect(await run("parameters", "depht")).toEqual({
      code: 2,
      out: "",
      err: "Cannot list parameters of depht as the word must be in the key or the sentence of one: current value is in none (did you mean depth?)\n",
    })
    expect((await run("parameters", "zamboni")).err).toContain("(goalmouth parameters lists all)")
  })
})

describe("as a process", () => {
  test("returns 0 for a clean file, 2 for a bad file and a bad place", () => {
    const good = write("good.yaml", "question: x")
    const bad = write("bad.yaml", "question: x\ngoalie.depth: 12 m")
    expect(call(["check", good])).toMatchObject({ code: 0, err: "" })
    expect(call(["check", bad])).toMatchObject({ code: 2, out: "" })
    expect(call(["new", good]).code).toBe(2)
    expect(readFileSync(good, "utf8")).toBe("question: x")
  })

  test("colours messages when asked and not under NO_COLOR", () => {
    const bad = write("bad.yaml", "question: 1")
    expect(call(["check", bad], { NO_COLOR: "", FORCE_COLOR: "1" }).err).toContain("\u001b[31m")
    expect(call(["check", bad], { NO_COLOR: "1", FORCE_COLOR: "" }).err).toMatch(/^Cannot read/)
  })

  // mutation seen red: a static import of the reader in the list of commands, of the parser in the entry
  test("help loads neither the reader's packages nor the charts' nor the parser", () => {
    const loader = `
      import { register } from "node:module"
      register("data:text/javascript," + encodeURIComponent(
        "export async function resolve(name, context, next) { const found = await next(name, context); if (/node_modules.(zod|yaml|vega|vega-lite).dist|node_modules.(zod|vega|yargs)./.test(found.url)) console.error('LOADED ' + found.url); return found }"))`
    const path = write("watch.mjs", loader)
    const watched = (words: readonly string[]): string => {
      const { stderr } = spawnSync(process.execPath, ["--import", path, MAIN, ...words], { encoding: "utf8" })
      return stderr
    }
    expect(watched(["--help"])).not.toContain("LOADED")
    // the watch itself works: reading a file does load the reader's packages
    expect(watched(["list"])).toContain("LOADED")
  })
})
