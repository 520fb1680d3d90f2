import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { commandLine, type Ran } from "./in-process.ts"

let folder = ""
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-survey-"))
})
afterAll(() => rmSync(folder, { recursive: true }))

function run(...words: string[]): Promise<Ran> {
  return commandLine("survey", ...words)
}

function write(name: string, content: string): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

describe("survey", () => {
  test("tells which cues to go by, in lines of at most a hundred characters, and defers to local rules", async () => {
    const { code, out, err } = await run(write("rink.yaml", "rink: international\nhome: north-american"))
    expect({ code, err }).toEqual({ code: 0, err: "" })
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100)
    for (const part of [
      "Off the line, cm",
      "Off the angle, degrees",
      "Marks in line",
      "Trust",
      "Distrust",
      "Local rules",
    ]) {
      expect(out).toContain(part)
    }
    expect(out).not.toMatch(/NaN|undefined/)
  })

  test("prints JSON, with the files it wrote", async () => {
    const path = write("json.yaml", "rink: college\nhome: international")
    const plain = JSON.parse((await run(path, "--json")).out)
    expect(plain.cues).toHaveLength(11)
    expect(plain.files).toBeUndefined()
    const out = join(folder, "pictures")
    const { files } = JSON.parse((await run(path, "--json", "--out", out)).out)
    expect(files).toEqual(["svg", "png", "vg.json"].map((ending) => `${out}/survey.${ending}`))
    expect(readdirSync(out).sort()).toEqual(["survey.png", "survey.svg", "survey.vg.json"])
  })

  // seen to fail: a failed write passed over
  test("returns 2 for a wrong file, one problem a line, and for a place where nothing can be written", async () => {
    const bad = await run(write("bad.yaml", "rink: nowhere\nhome: college\ngoalie.depth: 12 m"))
    expect(bad).toMatchObject({ code: 2, out: "" })
    expect(bad.err.trimEnd().split("\n")).toHaveLength(3)
    const json = await run(join(folder, "bad.yaml"), "--json")
    expect(json).toMatchObject({ code: 2, err: "" })
    expect(JSON.parse(json.out).problems).toHaveLength(2)
    const good = write("good.yaml", "rink: college\nhome: international")
    const blocked = await run(good, "--out", join(good, "pictures"))
    expect(blocked).toMatchObject({ code: 2, out: "" })
    expect(blocked.err).toMatch(/^Cannot write .* as every name before the last must be a folder/)
    expect(existsSync(join(folder, "survey.svg"))).toBe(false)
    expect((await run(join(folder, "none.yaml"))).code).toBe(2)
  })
})
