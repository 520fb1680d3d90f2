import { mkdtempSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import type { Story } from "../../src/experiments/replay/story.ts"
import { commandLine } from "./in-process.ts"

let folder = ""
let file = ""

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-replay-"))
  file = join(folder, "depth.yaml")
  const lines = [
    "question: How deep?",
    "play.distance: 8 m",
    "sweep: { goalie.depth: [1 m, 1.2 m, 1.4 m] }",
    "shots: 1024",
  ]
  writeFileSync(file, lines.join("\n"))
})
afterAll(() => rmSync(folder, { recursive: true }))

const run = commandLine

async function storyOf(...words: string[]): Promise<Story> {
  const { code, out, err } = await run("replay", file, "--json", ...words)
  expect({ code, err }).toEqual({ code: 0, err: "" })
  return JSON.parse(out) as Story
}

describe("replay", () => {
  // mutation seen red: lines wrapped at 110
  test("tells the first shot of the baseline in lines of at most 100 columns", async () => {
    const { code, out, err } = await run("replay", file)
    expect({ code, err }).toEqual({ code: 0, err: "" })
    expect(out).toMatch(/^Shot 0:0 of depth, depth .* \(baseline, point \d of 3\), seed goalmouth\n/)
    for (const title of ["The shot", "The goalie", "Step by step"]) expect(out).toContain(`\n${title}`)
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100)
  })

  test("--shot, --point and --set choose what is told", async () => {
    expect(await storyOf("--shot", "3:7", "--point", "3")).toMatchObject({
      shot: "3:7",
      point: { number: 3, of: 3, name: "depth 1.4 m" },
      stand: { askedM: 1.4 },
    })
    const held = await storyOf("--set", "goalie.depth=0.9 m", "--set", "play.distance=11 m")
    expect(held).toMatchObject({ point: { of: 1 }, stand: { askedM: 0.9 }, release: { distanceM: 11 } })
    expect((await storyOf("--point", "baseline")).point.baseline).toBe(true)
  })

  test("--find goes on from --shot", async () => {
    const first = await storyOf("--find", "goal")
    expect(first.verdict.outcome).toBe("goal")
    const index = Number(first.shot.split(":")[1])
    const next = await storyOf("--find", "goal", "--shot", `0:${index + 1}`)
    expect(next.verdict.outcome).toBe("goal")
    expect(next.shot).not.toBe(first.shot)
  })

  test.each<[string, string[], string]>([
    [
      "a shot that is no name",
      ["--shot", "17"],
      "Cannot replay --shot 17 as the shot must be replicate:index from 0:0 to 31:31: current value is 17",
    ],
    ["a shot out of range", ["--shot", "0:32"], "from 0:0 to 31:31: current value is 0:32"],
    ["a replicate out of range", ["--shot", "32:0"], "from 0:0 to 31:31: current value is 32:0"],
    [
      "a point that is none",
      ["--point", "4"],
      "Cannot replay at --point 4 as the point must be baseline or a whole number from 1 to 3: current value is 4",
    ],
    ["point zero", ["--point", "0"], "from 1 to 3: current value is 0"],
    ["a point that is no number", ["--point", "deep"], "from 1 to 3: current value is deep"],
    ["an unknown word to find", ["--find", "rebound"], "must be goal, save, close, late, opened, block, iron or miss"],
    [
      "a find that nothing matches",
      ["--find", "block", "--set", "goalie.answer=react"],
      "Cannot find --find block as one of the 1024 shots looked at must be one that is answered with a block",
    ],
    ["a setting out of its limits", ["--set", "goalie.depth=12 m"], "goalie.depth must be between"],
  ])("answers %s in one message with code 2", async (_name, words, part) => {
    const { code, out, err } = await run("replay", file, ...words)
    expect({ code, out, lines: err.trimEnd().split("\n").length }).toEqual({ code: 2, out: "", lines: 1 })
    expect(err).toMatch(/^Cannot .* must be .*: current value is /)
    expect(err).toContain(part)
  })
})
