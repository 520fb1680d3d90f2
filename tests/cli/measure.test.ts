import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { parse } from "yaml"
import { MEASURE_CAUTIONS } from "../../src/experiments/measure/cautions.ts"
import { sheetText } from "../../src/experiments/measure/sheet.ts"
import { readExperimentText } from "../../src/experiments/read/read-experiment.ts"
import { QUANTITIES } from "../../src/models/settings.ts"
import { commandLine, type Ran } from "./in-process.ts"

let folder = ""
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-measure-"))
})
afterAll(() => rmSync(folder, { recursive: true }))

function run(...words: string[]): Promise<Ran> {
  return commandLine("measure", ...words)
}

function write(name: string, content: string): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

const QUICK = `name: "Quick: second season"
stature: 5'11"
mass: 172 lb
catches: right
gear: youth
frame_rate: 60
post_to_post: [0.85 s, 0.92 s, 0.88 s]
slide: 61 frames, 64 frames
slide_distance: 2 m
drop: [19 frames, 18 frames]
`

describe("measure", () => {
  // seen to fail: movement keys unknown to the reader of goalie files
  test("writes a goalie file that an experiment names and reads clean, with every value in its place", async () => {
    const out = join(folder, "quick.yaml")
    const ran = await run(write("readings.yaml", QUICK), "--out", out)
    expect({ code: ran.code, err: ran.err }).toEqual({ code: 0, err: "" })
    expect(ran.out).toContain(`Wrote ${out}`)
    const result = readExperimentText(join(folder, "x.yaml"), "question: x\ngoalie: { file: quick.yaml }\n")
    if ("problems" in result) throw new Error(result.problems.map(({ text }) => text).join("\n"))
    const { settings } = result.experiment.points[0]!
    expect((parse(readFileSync(out, "utf8")) as { name: string }).name).toBe("Quick: second season")
    expect(settings.quantities["goalie.stature"]).toBeCloseTo(71 * 0.0254, 9)
    expect(settings.quantities["goalie.mass"]).toBeCloseTo(172 * 0.45359237, 9)
    expect([settings.choices["goalie.catches"], settings.choices["goalie.gear"]]).toEqual(["right", "youth"])
    expect(settings.quantities["goalie.drop_time"]).toBeCloseTo(18.5 / 60, 3)
    // the usual push passes the far post in 0.824 s, this one in 0.883 s
    const pace = (1.8288 / 3 + 3 / 14) / (2.65 / 3)
    expect(settings.quantities["movement.t_push_speed"]).toBeCloseTo(3 * pace, 2)
    expect(settings.quantities["movement.t_push_acceleration"]).toBeCloseTo(7 * pace * pace, 1)
    expect(settings.quantities["movement.slide_speed"]).toBeLessThan(2.5)
    expect(settings.quantities["movement.shuffle_speed"]).toBe(QUANTITIES["movement.shuffle_speed"].value)
  })

  test("says the spread of each value in the text, in the file's comments and as numbers", async () => {
    const readings = write("spread.yaml", QUICK)
    const out = join(folder, "spread-goalie.yaml")
    const text = await run(readings, "--out", out)
    expect(text.out).toMatch(/movement\.t_push_speed +2\.8 m\/s +2\.43 to 3\.16 m\/s/)
    expect(readFileSync(out, "utf8")).toContain(
      "t_push_speed: 2.8 m/s # 2.43 to 3.16 m/s, from 3 readings of post to post",
    )
    const json = JSON.parse((await run(readings, "--json")).out)
    const speed = json.values.find(({ key }: { key: string }) => key === "movement.t_push_speed")
    expect(speed.high - speed.low).toBeCloseTo(4 * speed.standardError, 9)
    // 0.1 s a reading, three readings
    expect(speed.standardError / speed.value).toBeCloseTo(0.1 / Math.sqrt(3) / (2.65 / 3), 9)
    expect(json.timed.map(({ n }: { n: number }) => n)).toEqual([3, 2, 2])
    // a frame a reading, two readings; seen to fail: two frames
    expect(json.timed[2].standardError).toBeCloseTo(1 / 60 / Math.sqrt(2), 12)
  })

  test("puts the cautions in the text, the file, the sheet and the numbers", async () => {
    const out = join(folder, "cautions.yaml")
    const text = await run("--drop", "0.3 s", "--out", out)
    expect(text.out.replaceAll(/\s+/g, " ")).toContain(MEASURE_CAUTIONS)
    expect(readFileSync(out, "utf8")).toContain(MEASURE_CAUTIONS)
    expect(sheetText()).toContain(MEASURE_CAUTIONS)
    expect(JSON.parse((await run("--drop", "0.3 s", "--json")).out).cautions).toBe(MEASURE_CAUTIONS)
  })

  test("takes flags alone, several of one kind as several readings, and lets them stand for the file's", async () => {
    const alone = JSON.parse((await run("--post-to-post", "0.8s", "--post-to-post", "0.9 s, 850ms", "--json")).out)
    expect(alone.timed[0].n).toBe(3)
    expect(alone.timed[0].mean).toBeCloseTo(0.85, 12)
    const both = JSON.parse((await run(write("both.yaml", QUICK), "--drop", "0.35 s", "--name", "Tall", "--json")).out)
    expect(both.name).toBe("Tall")
    expect(both.timed.at(-1)).toMatchObject({ n: 1, mean: 0.35, standardError: 0.1 })
  })

  test("never replaces a file, and says so with code 2", async () => {
    const out = write("kept.yaml", "name: Kept\n")
    for (const words of [
      ["--drop", "0.3 s", "--out", out],
      ["--sheet", out],
    ]) {
      const { code, err } = await run(...words)
      expect(code).toBe(2)
      expect(err).toBe(
        `Cannot write ${out} as the file must be new: current value is one that exists already (choose another name)\n`,
      )
    }
    expect(readFileSync(out, "utf8")).toBe("name: Kept\n")
  })

  test("writes nothing when a reading is wrong", async () => {
    const out = join(folder, "never.yaml")
    expect((await run("--drop", "0.3", "--out", out)).code).toBe(2)
    expect(existsSync(out)).toBe(false)
  })

  test.each<[string, string[], string]>([
    ["a missing unit", ["--post-to-post", "0.85"], "(write the unit: 0.85 s or 0.85 ms)"],
    ["a decimal comma", ["--drop", "0,3 s"], "(write a decimal point: 0.3 s)"],
    ["frames without a rate", ["--drop", "9 frames"], "as frame_rate must be given for drop in frames"],
    ["no frames", ["--drop", "0 frames", "--frame-rate", "30"], "as drop must be at least 1 frame"],
    [
      "a distance left out",
      ["--slide", "1 s"],
      "as slide_distance must be given with the readings of the butterfly slide",
    ],
    [
      "a time too short",
      ["--post-to-post", "0.01s"],
      "as post_to_post must be between 0.2814 s and 4.874 s over 1.829 m",
    ],
    ["a drop too long", ["--drop", "4 s"], "as drop must be between 0.15 s and 1 s"],
    ["a body out of range", ["--stature", "12 m"], "as goalie.stature must be between 1.1 m and 2.2 m"],
    ["a wrong hand", ["--catches", "lift"], "(did you mean left?)"],
    ["nothing", [], "as the readings must be at least one reading or measure"],
  ])("answers %s in the house's grammar with code 2", async (_name, words, part) => {
    const { code, out, err } = await run(...words)
    expect({ code, out, lines: err.trimEnd().split("\n").length }).toEqual({ code: 2, out: "", lines: 1 })
    expect(err).toMatch(/^Cannot read .* as .* must be .*: current value is /)
    expect(err).toContain(part)
  })

  test("names the line of each problem of a file, all at once", async () => {
    const path = write("bad.yaml", "post_to_post: [0.85 s, 0.9]\nslid: 1 s\ndrop: 0.3 s\ndrop_time: 300 ms\n")
    const { code, err } = await run(path)
    expect(code).toBe(2)
    expect(err).toContain(`${path}:1:24 as post_to_post`)
    expect(err).toContain(`${path}:2:1 as slid must be a known key: current value is 1 s (did you mean slide?)`)
    expect(err).toContain(`${path}:4:1 as drop_time must be left out where drop gives readings`)
    expect(err).toContain("3 problems")
    const json = JSON.parse((await run(path, "--json")).out)
    expect(json.problems).toHaveLength(3)
  })
})

describe("the sheet", () => {
  test("is written empty, and empty gives no readings", async () => {
    const path = join(folder, "sheet.yaml")
    const { code, out } = await run("--sheet", path)
    expect(code).toBe(0)
    expect(out).toContain(`Wrote ${path}`)
    expect(Object.values(parse(readFileSync(path, "utf8")) as object).every((value) => value === null)).toBe(true)
    const empty = await run(path)
    expect(empty.code).toBe(2)
    expect(empty.err).toContain("as the readings must be at least one reading")
  })

  test("filled in reads back what was written into it", async () => {
    const filled = sheetText()
      .replace("stature:", "stature: 1.80 m")
      .replace("shuffle:", "shuffle: [1.5 s, 1.6 s]")
      .replace("shuffle_distance:", "shuffle_distance: 2 m")
    const json = JSON.parse((await run(write("filled.yaml", filled), "--json")).out)
    expect(json.given).toEqual([{ key: "goalie.stature", value: 1.8 }])
    expect(json.timed).toMatchObject([{ what: "shuffle over 2 m", n: 2, mean: 1.55 }])
  })
})

describe("the notes", () => {
  test("warn of a drop quicker than a fall, and of a push outside what is plausible", async () => {
    const words = ["--frame-rate", "240", "--drop", "48 frames", "--post-to-post", "80 frames", "--json"]
    const notes: string[] = JSON.parse((await run(...words)).out).notes
    expect(notes.some((note) => note.startsWith("A drop in 200 ms is quicker than a free fall of the knees"))).toBe(
      true,
    )
    expect(notes.some((note) => note.startsWith("movement.t_push_speed of 7.415 m/s lies outside the plausible"))).toBe(
      true,
    )
    const calm: string[] = JSON.parse((await run("--drop", "0.3 s", "--json")).out).notes
    expect(calm).toHaveLength(1)
  })
})
