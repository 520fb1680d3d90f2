import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, describe, expect, test } from "vitest"
import { accessFacts } from "../../../src/experiments/read/file.ts"
import { readExperiment } from "../../../src/experiments/read/read-experiment.ts"

let folder = ""

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "goalmouth-read-"))
})
afterAll(() => rmSync(folder, { recursive: true }))

function write(name: string, content: string | Uint8Array): string {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}

/** Messages without the folder, which has another name in each run. */
function messages(path: string): string[] {
  const result = readExperiment(path)
  return "problems" in result ? result.problems.map(({ text }) => text.replaceAll(`${folder}/`, "")) : []
}

describe("one clear message for", () => {
  test("a file that does not exist, with the nearest that does", () => {
    write("depth.yaml", "question: x")
    expect(messages(join(folder, "dept.yaml"))).toEqual([
      "Cannot read dept.yaml as the file must be an existing file: current value is dept.yaml, which does not exist (did you mean depth.yaml?)",
    ])
  })

  test("a path through a file", () => {
    write("depth.yaml", "question: x")
    expect(messages(join(folder, "depth.yaml/more.yaml"))).toEqual([
      "Cannot read depth.yaml/more.yaml as the file must be an existing file: current value is depth.yaml/more.yaml, which leads through a file as if it were a folder (check each part of the path)",
    ])
  })

  test("a folder", () => {
    mkdirSync(join(folder, "inside"))
    expect(messages(join(folder, "inside"))).toEqual([
      "Cannot read inside as the file must be a file: current value is the folder inside (name a file in it)",
    ])
  })

  test("a file that is no plain file", () => {
    expect(messages("/dev/null")).toEqual([
      "Cannot read /dev/null as the file must be a file: current value is /dev/null, which is no plain file (name a file in it)",
    ])
  })

  test("a file larger than an experiment can be, without reading it", () => {
    expect(messages(write("huge.yaml", "#".repeat(1024 * 1024 * 2)))).toEqual([
      "Cannot read huge.yaml as the file must be a file of at most 1 MiB: current value is huge.yaml with 2.0 MiB",
    ])
  })

  test("an empty file and one of remarks alone", () => {
    const message = (name: string): string =>
      `Cannot read ${name} as the file must be a file with content: current value is ${name}, which is empty (goalmouth new writes a file to start from)`
    expect(messages(write("empty.yaml", ""))).toEqual([message("empty.yaml")])
    expect(messages(write("remarks.yaml", "# only\n  # remarks\n"))).toEqual([message("remarks.yaml")])
  })

  test("bytes that are no text", () => {
    expect(messages(write("picture.yaml", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe])))).toEqual([
      "Cannot read picture.yaml as the file must be text in UTF-8: current value is picture.yaml, which holds other bytes",
    ])
    expect(messages(write("nul.yaml", "question: \u0000"))).toEqual([
      "Cannot read nul.yaml as the file must be text in UTF-8: current value is nul.yaml, which is binary",
    ])
  })

  test("a file that may not be read", () => {
    expect(accessFacts("depth.yaml", { code: "EACCES" })).toMatchObject({
      kind: "unreadable",
      rule: "a file that can be read",
    })
    expect(accessFacts("depth.yaml", { code: "EIO" })).toMatchObject({
      kind: "unreadable",
      current: "depth.yaml (EIO)",
    })
  })
})

describe("a goalie file", () => {
  test("gives its settings and its name, and the experiment wins over it", () => {
    write("tall.yaml", "name: Tall\nabout: invented\nstature: 1.96 m\nmass: 95 kg\n")
    const path = write("use.yaml", "question: x\ngoalie: { file: tall.yaml, mass: 90 kg }")
    const result = readExperiment(path)
    if (!("experiment" in result)) throw new Error("should read")
    const { quantities } = result.experiment.points[0]!.settings
    expect([quantities["goalie.stature"], quantities["goalie.mass"]]).toEqual([1.96, 90])
    expect(result.experiment.goalieName).toBe("Tall")
    expect(result.experiment.setByFile).toEqual(["goalie.stature", "goalie.mass", "play.goalie"])
  })

  // mutation seen red: the settings of the first goalie kept under those of the second
  test("of a compared case replaces the first goalie altogether", () => {
    write("tall.yaml", "stature: 1.96 m\nmass: 95 kg\n")
    write("quick.yaml", "stature: 1.80 m\n")
    const body = "question: x\ngoalie: tall.yaml\ncompare: [{ name: a }, { name: b, goalie: quick.yaml }]"
    const result = readExperiment(write("two.yaml", body))
    if (!("experiment" in result)) throw new Error("should read")
    const [tall, quick] = result.experiment.points.map((point) => point.settings.quantities)
    expect([tall?.["goalie.stature"], tall?.["goalie.mass"]]).toEqual([1.96, 95])
    expect(quick?.["goalie.stature"]).toBe(1.8)
    expect(quick?.["goalie.mass"]).toBeNaN()
  })

  test("may start from another, found from its own folder", () => {
    mkdirSync(join(folder, "goalies"))
    write("goalies/base.yaml", "stature: 1.9 m\nmass: 90 kg\n")
    write("goalies/derived.yaml", "file: base.yaml\nmass: 92 kg\n")
    const result = readExperiment(write("derived.yaml", "question: x\ngoalie: goalies/derived.yaml"))
    if (!("experiment" in result)) throw new Error("should read")
    const { quantities } = result.experiment.points[0]!.settings
    expect([quantities["goalie.stature"], quantities["goalie.mass"]]).toEqual([1.9, 92])
    expect(result.experiment.goalieName).toBe("derived")
  })

  // mutation seen red: the path from the root put behind the folder of the file that names it
  test("may be named by its path from the root", () => {
    const path = write("rooted.yaml", "stature: 1.85 m\n")
    const result = readExperiment(write("from-root.yaml", `question: x\ngoalie: ${path}`))
    if (!("experiment" in result)) throw new Error("should read")
    expect(result.experiment.points[0]!.settings.quantities["goalie.stature"]).toBe(1.85)
  })

  test("that is missing is a problem of the file that names it", () => {
    expect(messages(write("lost.yaml", "question: x\ngoalie:\n  file: goalies/lost.yaml"))).toEqual([
      "Cannot read lost.yaml:3:3 as goalie.file must be an existing file: current value is goalies/lost.yaml, which does not exist (a path starts from the folder of the file that names it)",
    ])
  })

  test("with bad keys is named with its own lines, beside the problems of the experiment", () => {
    write("wrong.yaml", "stature: 9 m\nhight: 2 m\nplay.angle: 1 deg\n")
    expect(messages(write("uses-wrong.yaml", "question: 1\ngoalie: wrong.yaml"))).toEqual([
      "Cannot read uses-wrong.yaml:1:1 as question must be text: current value is 1",
      "Cannot read wrong.yaml:1:1 as goalie.stature must be between 1.1 m and 2.2 m: current value is 9 m",
      "Cannot read wrong.yaml:2:1 as goalie.hight must be a known key: current value is 2 m (goalmouth parameters lists them)",
      "Cannot read wrong.yaml:3:1 as goalie.play.angle must be a known key: current value is 1 deg (goalmouth parameters lists them)",
    ])
  })

  test("that leads back to itself", () => {
    write("one.yaml", "file: other.yaml")
    write("other.yaml", "file: one.yaml")
    expect(messages(write("circle.yaml", "question: x\ngoalie: one.yaml"))).toEqual([
      "Cannot read other.yaml:1:1 as goalie.file must be a goalie file that does not lead back to itself: current value is one.yaml (remove file: from one of them)",
    ])
  })

  test("that is a list", () => {
    write("list.yaml", "- stature: 2 m")
    expect(messages(write("uses-list.yaml", "question: x\ngoalie: list.yaml"))).toEqual([
      "Cannot read list.yaml:1:1 as the goalie file must be a mapping of keys to values: current value is a list",
    ])
  })
})

describe("a CSV of spots", () => {
  function spots(csv: string): ReturnType<typeof readExperiment> {
    write("spots.csv", csv)
    return readExperiment(write("spots.yaml", "question: x\nplay: { from: spots.csv }"))
  }

  test("is read with units in the head or with each number, polar or not", () => {
    const plain = spots('label,x_ft,y_m,weight\nslot,20,-1,2\n\n# a remark\n"left, wide",30,4 m,1\n')
    if (!("experiment" in plain)) throw new Error("should read")
    expect(plain.experiment.points[0]?.settings.origins).toEqual([
      { kind: "spot", label: "slot", weight: 2, x: expect.closeTo(6.096, 12), y: -1 },
      { kind: "spot", label: "left, wide", weight: 1, x: expect.closeTo(9.144, 12), y: 4 },
    ])
    const polar = spots("distance;angle (deg)\n10 m;30\n")
    if (!("experiment" in polar)) throw new Error("should read")
    expect(polar.experiment.points[0]?.settings.origins).toEqual([
      {
        kind: "spot",
        label: "line 2",
        weight: 1,
        x: expect.closeTo(10 * Math.sqrt(0.75), 12),
        y: expect.closeTo(5, 12),
      },
    ])
  })

  test("lists each bad line with its line and column", () => {
    spots("label,x_m,y\nslot,8,far\nwing,9\nclose,0.2,0 m\nlost,,1 m\n")
    expect(messages(join(folder, "spots.yaml"))).toEqual([
      "Cannot read spots.csv:2:8 as y must be a length with its unit: current value is far (name the unit in the head: y_m)",
      "Cannot read spots.csv:3:1 as the line must be 3 cells like the head: current value is 2 cells",
      "Cannot read spots.csv:4:1 as the spot must be 1 m to 55 m from the centre of the goal line and not behind it: current value is close, 0.2, 0 m",
      "Cannot read spots.csv:5:6 as x must be a length with its unit: current value is nothing (name the unit in the head: x_m)",
    ])
  })

  test("needs a head that it knows, and a line below it", () => {
    spots("lable,x_m,y_m\nslot,8,1\n")
    expect(messages(join(folder, "spots.yaml"))).toEqual([
      "Cannot read spots.csv:1:1 as the head must be made of label, weight, x, y, distance or angle: current value is lable (did you mean label?)",
    ])
    spots("x_m,angle_deg\n8,1\n")
    expect(messages(join(folder, "spots.yaml"))).toEqual([
      "Cannot read spots.csv:1:1 as the head must be either x and y or distance and angle, each once: current value is x_m, angle_deg",
    ])
    spots("x_m,y_m\n")
    expect(messages(join(folder, "spots.yaml"))).toEqual([
      "Cannot read spots.csv as the spots must be at least one line below the head: current value is the head alone",
    ])
  })
})
