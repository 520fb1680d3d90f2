import { spawn } from "node:child_process"
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { fileURLToPath } from "node:url"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { commandLine, type Ran } from "./in-process.ts"

const MAIN = fileURLToPath(new URL("../../dist/cli/main.js", import.meta.url))
const FILE = `question: How far out for a shot from 6 m?
play: { distance: 6 m }
sweep:
  goalie.depth: { from: 1 ft, to: 7 ft, step: 2 ft }
baseline: { goalie.depth: 3 ft }
shots: 1024
seed: northlake run test
charts: [curve]
`
let folder = ""
let file = ""

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-run-"))
  file = join(folder, "six-metres.yaml")
  writeFileSync(file, FILE)
})
afterAll(() => rmSync(folder, { recursive: true }))

function run(...words: string[]): Promise<Ran> {
  return commandLine("run", ...words)
}

describe("goalmouth run", () => {
  test("writes the run folder, says the answer and where the charts are", async () => {
    const place = join(folder, "first")
    const { code, out } = await run(file, "--out", place, "--no-assumptions", "--workers", "1")
    expect(code).toBe(0)
    expect(out).toContain("How far out for a shot from 6 m?")
    expect(out).toContain(join(place, "charts"))
    for (const name of ["results.csv", "results.json", "results.parquet", "report.html", "manifest.json"])
      expect(existsSync(join(place, name)), name).toBe(true)
    const charts = readdirSync(join(place, "charts"))
    for (const ending of [".svg", ".png", ".vl.json"])
      expect(
        charts.some((chart) => chart.endsWith(ending)),
        ending,
      ).toBe(true)
    expect(readdirSync(place).filter((name) => name.includes("partial"))).toEqual([])
  })

  // seen to fail: nothing said before the end
  test("says first how many shots it fires, and what keeping them takes", async () => {
    const flags = ["--no-assumptions", "--workers", "1", "--shots", "600"]
    const kept = await run(file, "--out", join(folder, "counted"), ...flags, "--keep-shots")
    expect(kept.err.split("\n")[0]).toBe(
      "Firing 1,024 shots a point (600 rounded up to whole batches), 4,096 for 4 points; every one kept takes some 0.18 MB",
    )
    expect((await run(file, "--out", join(folder, "counted"), ...flags, "--quiet")).err).toBe("")
  })

  test("columns are the swept key with the file's unit, each measure with its interval, shots and seed", async () => {
    const place = join(folder, "columns")
    await run(file, "--out", place, "--no-assumptions", "--quiet", "--workers", "1")
    const [header, ...rows] = readFileSync(join(place, "results.csv"), "utf8").trim().split(/\r?\n/)
    const columns = header!.split(",")
    const wanted = ["goalie.depth_ft", "save_rate", "save_rate_low", "save_rate_high", "goal_rate", "net_covered"]
    const compared = ["box_area_m2", "save_rate_vs_baseline", "save_rate_vs_baseline_low", "save_rate_vs_baseline_high"]
    for (const column of [...wanted, ...compared, "shots", "seed"]) expect(columns).toContain(column)
    expect(columns).not.toContain("net_covered_low")
    expect(rows.map((row) => row.split(",")[columns.indexOf("goalie.depth_ft")])).toEqual(["1", "3", "5", "7"])
    expect(rows[0]!.split(",")[columns.indexOf("seed")]).toBe("northlake run test")
  })

  test("--set, --seed and --shots change the run as the file would", async () => {
    const place = join(folder, "flags")
    const flags = ["--set", "goalie.stature=2 m", "--seed", "other", "--shots", "2048", "--json", "--no-assumptions"]
    const { code, out } = await run(file, "--out", place, "--workers", "1", ...flags)
    expect(code).toBe(0)
    expect(JSON.parse(out)).toEqual(JSON.parse(readFileSync(join(place, "results.json"), "utf8")))
    const manifest = JSON.parse(readFileSync(join(place, "manifest.json"), "utf8"))
    expect(manifest).toMatchObject({ seed: "other", shots: 2048, stoppedBy: "shots" })
    expect(manifest.parameters["goalie.stature"]).toBe(2)
  })

  test("a wanted half-width stops the run by itself, or its ceiling does, and the manifest says which", async () => {
    const wide = join(folder, "wide")
    await run(
      file,
      "--out",
      wide,
      "--half-width",
      "5 %",
      "--shots",
      "16384",
      "--quiet",
      "--no-assumptions",
      "--workers",
      "1",
    )
    expect(JSON.parse(readFileSync(join(wide, "manifest.json"), "utf8")).stoppedBy).toBe("half-width")
    const narrow = join(folder, "narrow")
    await run(
      file,
      "--out",
      narrow,
      "--half-width",
      "0.01 %",
      "--shots",
      "2048",
      "--quiet",
      "--no-assumptions",
      "--workers",
      "1",
    )
    expect(JSON.parse(readFileSync(join(narrow, "manifest.json"), "utf8")).stoppedBy).toBe("ceiling")
  })

  test("the assumption range is on unless switched off", async () => {
    const place = join(folder, "assumed")
    await run(file, "--out", place, "--quiet", "--shots", "512", "--workers", "1")
    const [header, row] = readFileSync(join(place, "results.csv"), "utf8").split(/\r?\n/)
    const at = header!.split(",").indexOf("save_rate_assumptions_low")
    expect(at).toBeGreaterThan(0)
    expect(Number(row!.split(",")[at])).toBeGreaterThan(0.3)
  })

  test.each<[string, () => string[], string]>([
    ["an unknown file", () => [join(folder, "none.yaml")], "none.yaml"],
    ["a folder for a file", () => [folder], "Cannot read"],
    ["workers that are no number", () => [file, "--workers", "two"], "workers must be a whole number from 1 to 256"],
    ["a setting out of range", () => [file, "--set", "goalie.stature=9 m"], "goalie.stature must be between"],
    ["a place through a file", () => [file, "--out", join(file, "below")], "six-metres.yaml"],
  ])("%s gives one clear message, exit code 2 and writes nothing", async (_name, words, message) => {
    const before = readdirSync(folder).sort()
    const { code, out, err } = await run(...words())
    expect(code).toBe(2)
    expect(out).toBe("")
    expect(err.trim().split("\n")).toHaveLength(1)
    expect(err).toContain(message)
    expect(readdirSync(folder).sort()).toEqual(before)
  })

  test("a file in the way of the run folder is not written over", async () => {
    const place = join(folder, "in-the-way")
    writeFileSync(place, "mine")
    const { code, err } = await run(file, "--out", place)
    expect(code).toBe(2)
    expect(err).toContain("in-the-way")
    expect(readFileSync(place, "utf8")).toBe("mine")
  })

  test("a folder in the way of a result is found before the first shot, and earlier results stay as they were", async () => {
    const place = join(folder, "half-taken")
    mkdirSync(join(place, "report.html", "taken"), { recursive: true })
    writeFileSync(join(place, "results.csv"), "earlier")
    const { code, err } = await run(file, "--out", place, "--no-assumptions", "--quiet", "--workers", "1")
    expect(code).toBe(2)
    expect(err).toContain("report.html")
    expect(readFileSync(join(place, "results.csv"), "utf8")).toBe("earlier")
  })

  test("settings that cannot be played together are the file's matter: one message, exit code 2", async () => {
    const several = join(folder, "several.yaml")
    const spots = "[{ label: a, distance: 8 m, angle: 20 deg }, { label: b, distance: 8 m, angle: -40 deg }]"
    const cue = "reference: { cue: ice marking, home: international }"
    writeFileSync(several, `question: Which?\nwhy: To see.\nplay: { from: ${spots} }\n${cue}\nshots: 512\n`)
    const { code, err } = await run(several, "--out", join(folder, "several"), "--no-assumptions", "--workers", "1")
    expect(err).toContain("Cannot")
    expect(err.trim().split("\n")).toHaveLength(1)
    expect(code).toBe(2)
    // seen to fail: only the reading of the file checked, which says that it reads clean
    expect(await commandLine("check", several)).toEqual({ code: 2, out: "", err })
    const [checked] = JSON.parse((await commandLine("check", "--json", several)).out)
    expect(checked).toMatchObject({ clean: false, problems: [{ kind: "contradiction", text: err.trim() }] })
  })

  // Seen to fail, with exit code 1 and an unfinished run, when scenes were compiled by the threads alone.
  test.each(["1", "2"])(
    "so are those of a second case, found before the first shot, on %s threads",
    async (workers) => {
      const shut = join(folder, "no-zone.yaml")
      const zones = ["low_glove", "low_blocker", "high_glove", "high_blocker", "middle"].map(
        (zone) => `zone_${zone}: 0`,
      )
      const cases = ["open, shooter.zone_five_hole: 1", "shut, shooter.zone_five_hole: 0"].map(
        (one) => `{ name: ${one} }`,
      )
      const lines = [`shooter: { aim: zones, ${zones.join(", ")} }`, `compare: [${cases.join(", ")}]`]
      writeFileSync(shut, `${FILE}${lines.join("\n")}\n`)
      const place = join(folder, `no-zone-${workers}`)
      const { code, err } = await run(shut, "--out", place, "--no-assumptions", "--workers", workers)
      expect(err).toContain("Cannot aim at zones as the sum of the shooter.zone weights must be > 0")
      expect(code).toBe(2)
      expect(existsSync(join(place, ".unfinished"))).toBe(false)
    },
  )

  // seen to fail with the interruption not asked for between instalments: the process went on to the end
  test("Ctrl-C writes what is done and exits with 130", async () => {
    const place = join(folder, "interrupted")
    const long = ["run", file, "--out", place, "--shots", "4000000", "--no-assumptions", "--workers", "1"]
    const child = spawn(process.execPath, [MAIN, ...long], { stdio: ["ignore", "ignore", "pipe"] })
    const ended = new Promise((resolve) => child.on("exit", resolve))
    // however long it takes to load: the run says when it fires
    const fires = new Promise<void>((resolve) => {
      let said = ""
      child.stderr.on("data", (text) => {
        said += text
        if (said.includes("Firing")) resolve()
      })
    })
    await Promise.race([fires, ended])
    await new Promise((resolve) => setTimeout(resolve, 1000))
    child.kill("SIGINT")
    const code = await ended
    expect(code).toBe(130)
    const manifest = JSON.parse(readFileSync(join(place, "manifest.json"), "utf8"))
    expect(manifest.stoppedBy).toBe("interrupted")
    expect(manifest.shots).toBeLessThan(4_000_000)
  }, 120_000)
})
