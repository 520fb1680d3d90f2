import { readFileSync } from "node:fs"
import { join } from "node:path"
import ts from "typescript"
import { describe, expect, test } from "vitest"
import { filesBelow, importsOf, ROOT, sourcesBelow, textOf, treeOf } from "./tree.ts"

/** Rooms from the inside out: each imports from itself and from those before it. */
const ROOMS = ["sim", "models", "experiments", "cli"]
/** Rooms of the models that put others together; the rest know rink alone. */
const ASSEMBLERS = ["plays", "positioning"]
/** What every room of the models may read: the rink, and the record of a place shots come from. */
const SHARED = /^src\/models\/(rink\/\w+(-\w+)*|plays\/(origin|timed-event))\.ts$/
/** Files of the models that list every room's own table. */
const LISTS: Readonly<Record<string, RegExp>> = {
  "src/models/settings.ts": /^src\/models\/(\w+\/parameters|plays\/(origin|timed-event))\.ts$/,
  "src/models/sources.ts": /^src\/models\/\w+\/sources\.ts$/,
}

const SOURCES = sourcesBelow("src")
const IMPORTS = new Map(SOURCES.map((path) => [path, importsOf(path)]))
/** Every import of one of the project's own files as [from, to]. */
const OWN = SOURCES.flatMap((path) =>
  IMPORTS.get(path)!.flatMap((to) => (to.startsWith("src/") ? [[path, to] as const] : [])),
)

function room(path: string): string {
  return path.split("/")[1]!
}

function modelRoom(path: string): string {
  const parts = path.split("/")
  return parts[1] === "models" && parts.length > 3 ? parts[2]! : ""
}

describe("imports", () => {
  // seen to fail: an import of models/settings.ts in sim/world.ts
  test("run one way: cli to experiments to models to sim", () => {
    const wrong = OWN.filter(
      ([from, to]) => ROOMS.includes(room(from)) && ROOMS.indexOf(room(to)) > ROOMS.indexOf(room(from)),
    )
    expect(wrong).toEqual([])
    expect(OWN.filter(([from, to]) => room(from) !== room(to)).length).toBeGreaterThan(50)
  })

  // seen to fail: an import of the version of the command line in sim
  test("of sim stay in sim", () => {
    const wrong = SOURCES.filter((path) => room(path) === "sim").flatMap((path) =>
      IMPORTS.get(path)!
        .filter((to) => !to.startsWith("src/sim/"))
        .map((to) => [path, to]),
    )
    expect(wrong).toEqual([])
  })

  // seen to fail: assembly/meet.ts importing the columns of sim/meeting.ts, which has more than columns
  test("of the compiled kernel stay in it, but for files of sim that hold constants alone", () => {
    const borrowed = OWN.filter(([from, to]) => room(from) === "assembly" && room(to) !== "assembly").map(
      ([, to]) => to,
    )
    expect(OWN.filter(([from, to]) => room(to) === "assembly" && room(from) !== "assembly")).toEqual([])
    expect(borrowed.length).toBeGreaterThan(5)
    const wrong = borrowed.filter((path) => {
      const constant = (statement: ts.Statement) =>
        ts.isVariableStatement(statement) &&
        statement.declarationList.declarations.every(({ initializer }) => ts.isNumericLiteral(initializer!))
      return room(path) !== "sim" || !treeOf(path).statements.every(constant)
    })
    expect(wrong).toEqual([])
  })

  // seen to fail: goalie/posture.ts importing shooter/speed.ts
  test("between rooms of the models go to rink and to the place of a shot, or come from plays and positioning, which assemble", () => {
    const wrong = OWN.filter(([from, to]) => {
      const [mine, theirs] = [modelRoom(from), modelRoom(to)]
      if (mine === "" || theirs === "" || mine === theirs) return false
      return !SHARED.test(to) && !ASSEMBLERS.includes(mine)
    })
    expect(wrong).toEqual([])
  })

  test("of the files beside the models' rooms are lists of each room's tables", () => {
    const wrong = OWN.filter(
      ([from, to]) =>
        from.startsWith("src/models/") &&
        modelRoom(from) === "" &&
        modelRoom(to) !== "" &&
        LISTS[from]?.test(to) !== true,
    )
    expect(wrong).toEqual([])
  })

  // seen to fail: sim/parts.ts importing sim/pose.ts
  test("never go in a circle, types included", () => {
    const state = new Map<string, "open" | "done">()
    const circles: string[] = []
    const visit = (path: string, way: readonly string[]): void => {
      if (state.get(path) === "done") return
      if (state.get(path) === "open") {
        circles.push([...way.slice(way.indexOf(path)), path].join(" -> "))
        return
      }
      state.set(path, "open")
      for (const to of IMPORTS.get(path) ?? []) if (IMPORTS.has(to)) visit(to, [...way, path])
      state.set(path, "done")
    }
    for (const path of SOURCES) visit(path, [])
    expect(circles).toEqual([])
  })

  test("name files that are there, with their ending", () => {
    const known = new Set([...SOURCES, ...sourcesBelow("tests")])
    const wrong = [...known].flatMap((path) =>
      importsOf(path)
        .filter((to) => /^(src|tests)\//.test(to) && !known.has(to) && !to.endsWith(".json"))
        .map((to) => [path, to]),
    )
    expect(wrong).toEqual([])
  })
})

interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>
  readonly devDependencies: Readonly<Record<string, string>>
  readonly scripts: Readonly<Record<string, string>>
}

describe("packages", () => {
  const manifest: Manifest = JSON.parse(textOf("package.json"))
  const named = (folder: string): Set<string> =>
    new Set(
      filesBelow(folder)
        .filter((path) => /\.(ts|mjs|js)$/.test(path))
        .flatMap((path) => [...importsOf(path), ...required(path)])
        .filter((name) => !/^(node:|\.|src\/|tests\/|benchmarks\/|dist\/)/.test(name))
        .map((name) =>
          name
            .split("/")
            .slice(0, name.startsWith("@") ? 2 : 1)
            .join("/"),
        ),
    )
  const inSource = named("src")
  const elsewhere = new Set([...named("tests"), ...named("benchmarks"), ...importsOf("vitest.config.ts")])

  // seen to fail: an unused package listed, and one moved to the development packages
  test("that the source imports are exactly the dependencies", () => {
    expect([...inSource].sort()).toEqual(Object.keys(manifest.dependencies).sort())
  })

  test("that only tests, scripts or types need are exactly the development dependencies", () => {
    const scripts = Object.values(manifest.scripts).join(" ")
    const tools: Readonly<Record<string, string>> = {
      "@biomejs/biome": "biome",
      assemblyscript: "asc",
      rolldown: "rolldown",
      typescript: "tsc",
      vitest: "vitest",
    }
    const used = Object.keys(manifest.devDependencies).filter((name) => {
      if (elsewhere.has(name)) return true
      if (tools[name] !== undefined) return scripts.includes(tools[name])
      const typed = name.replace(/^@types\//, "")
      return name.startsWith("@types/") && (typed === "node" || typed in manifest.dependencies)
    })
    expect(used).toEqual(Object.keys(manifest.devDependencies))
    const missing = [...elsewhere].filter(
      (name) => !/^node:/.test(name) && !inSource.has(name) && !(name in manifest.devDependencies),
    )
    expect(missing.filter((name) => name in manifest.dependencies === false && !name.startsWith("vitest/"))).toEqual([])
  })

  test("are pinned to exact versions", () => {
    const versions = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })
    expect(versions.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([])
  })

  test("are locked by content and not by an address", () => {
    const lock = readFileSync(join(ROOT, "package-lock.json"), "utf8")
    expect(lock).not.toContain('"resolved"')
    expect(lock.match(/"integrity"/g)!.length).toBeGreaterThan(50)
  })
})

/** Packages loaded at run time, by require or by resolving them. */
function required(path: string): string[] {
  const text = textOf(path)
  return [
    ...text.matchAll(/(?:createRequire\(import\.meta\.url\)|\brequire|\.resolve)\(\s*["`]([^"`.][^"`]*)["`]/g),
  ].map((match) => match[1]!)
}
