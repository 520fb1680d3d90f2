import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { beforeAll, describe, expect, test } from "vitest"
import { type Disk, thisDisk } from "../../../src/experiments/write/disk.ts"
import {
  afterTasks,
  bytesOf,
  checkpointIn,
  differencesIn,
  interruptedAfter,
  NORTHLAKE,
  northlake,
  ownFolder,
  run,
  seededNumbers,
} from "./unfinished-run.ts"

const place = ownFolder()
let undisturbed = ""
beforeAll(async () => {
  undisturbed = bytesOf(await run({}))
})

/** Runs until some tasks are merged and something is kept, and then fails, as a process that is killed. */
async function crash(folder: string, after: number, workers = 1): Promise<void> {
  const checkpoint = await checkpointIn(folder)
  const kept = () => existsSync(join(folder, ".unfinished", "shots.bin"))
  const kill = () => {
    throw new Error("killed")
  }
  await expect(run({ checkpoint, workers, ...afterTasks(after, kill, kept) })).rejects.toThrow("killed")
  // what a dead process had begun to write is on disk or not; here it is waited for
  await new Promise((resolve) => setTimeout(resolve, 50))
}

const stages = (folder: string): string[] => readdirSync(join(folder, ".unfinished")).sort()

describe("a run that was killed", () => {
  // seen to fail: the task at which the file was written merged once more on resuming; sums not restored
  test.each(seededNumbers("kills", 3, 20, 110))("after %i tasks carries on to the same bytes", async (after) => {
    const folder = place(`killed-${after}`)
    await crash(folder, after)
    expect(stages(folder)).toContain("shots.bin")
    const checkpoint = await checkpointIn(folder)
    expect(checkpoint.carriesOn).toBe(true)
    expect(bytesOf(await run({ checkpoint, workers: 2 }))).toBe(undisturbed)
    await checkpoint.remove()
    expect(readdirSync(folder)).toEqual([])
  })

  test("on two threads, twice, carries on to the same bytes on one", async () => {
    const folder = place("killed-twice")
    await crash(folder, 50, 2)
    await crash(folder, 40, 2)
    expect(bytesOf(await run({ checkpoint: await checkpointIn(folder) }))).toBe(undisturbed)
  })

  // seen to fail: a count judged once more on resuming, with shots beyond it among its sums
  test("until a wanted half-width is known stops at the same count", async () => {
    const asked = northlake({ halfWidth: "0.35 %", shots: "32768", set: ["play.distance=6 m", "goalie.depth=1 m"] })
    const whole = await run({}, asked)
    expect(whole).toMatchObject({ stoppedBy: "half-width", shots: 16384 })
    for (const [i, after] of seededNumbers("half", 3, 10, 60).entries()) {
      const first = await checkpointIn(place(`half-${i}`), {}, asked)
      const stopped = await run({ checkpoint: first, ...interruptedAfter(after) }, asked)
      expect(stopped.stoppedBy).toBe("interrupted")
      const checkpoint = await checkpointIn(place(`half-${i}`), {}, asked)
      expect(bytesOf(await run({ checkpoint }, asked))).toBe(bytesOf(whole))
    }
  })

  // seen to fail: which points take no more forgotten on resuming, and their sums for pairs
  test("until some points are known and others not carries on with those alone", async () => {
    const depths = NORTHLAKE.replace("[0.6 m, 1.4 m]", "[0 m, 1.4 m]").replace("[6 m, 9 m]", "[8 m, 9 m]")
    const asked = northlake({ halfWidth: "0.6 %", shots: "16384" }, depths)
    const whole = await run({}, asked)
    const counts = [...new Set(whole.points.map(({ shots }) => shots))].toSorted((a, b) => a - b)
    expect(counts.length).toBeGreaterThan(1)
    expect(bytesOf(await run({ workers: 2 }, asked))).toBe(bytesOf(whole))
    for (const after of seededNumbers("some known", 3, 150, 260)) {
      const folder = place(`some-known-${after}`)
      const stopped = await run(
        { checkpoint: await checkpointIn(folder, {}, asked), ...interruptedAfter(after) },
        asked,
      )
      expect(stopped.stoppedBy).toBe("interrupted")
      const checkpoint = await checkpointIn(folder, {}, asked)
      expect(bytesOf(await run({ checkpoint }, asked))).toBe(bytesOf(whole))
    }
  })

  // seen to fail: sums written once for each instalment that is done
  test("keeps files of a bounded size, however far it has come", async () => {
    const folder = place("bounded")
    const sizes: number[] = []
    for (const after of [30, 60]) {
      await crash(folder, after)
      expect(stages(folder)).toEqual(["shots.bin"])
      sizes.push(Math.round(readFileSync(join(folder, ".unfinished", "shots.bin")).length / 1000))
    }
    expect(sizes[1]).toBe(sizes[0])
  })
})

describe("an unfinished run", () => {
  test("is not carried on by another seed, file, plan or program, and says what differs", async () => {
    const folder = place("changed")
    await crash(folder, 50)
    expect(await differencesIn(folder, northlake())).toBe("")
    expect(await differencesIn(folder, northlake({ seed: "other" }))).toBe("seed (northlake unfinished, now other)")
    expect(await differencesIn(folder, northlake({ shots: "4096" }))).toBe("shots (768, now 4096)")
    expect(await differencesIn(folder, northlake({ halfWidth: "1 %" }))).toBe("half-width (none, now 0.01)")
    const differences = { halfWidth: "1 %", halfWidthOf: "difference" }
    expect(await differencesIn(folder, northlake(differences))).toContain(
      "what the half-width is of (save rate, now difference)",
    )
    expect(await differencesIn(folder, northlake(), "1.2.4")).toBe("program version (1.2.3, now 1.2.4)")
    expect(await differencesIn(folder, northlake({ set: ["goalie.stature=2 m"] }))).toContain("goalie.stature (")
    const file = northlake({}, NORTHLAKE.replace("1.4 m]", "1.5 m]"))
    expect(await differencesIn(folder, file)).toBe("the points of the sweep or the cases")
    const words = northlake({}, NORTHLAKE.replace("How far", "How much").replace("[curve]", "[curve, bars]"))
    expect(await differencesIn(folder, words)).toBe("")
  })

  test("is thrown away when a fresh one is asked for", async () => {
    const folder = place("fresh")
    await crash(folder, 50)
    expect((await checkpointIn(folder, { fresh: true })).carriesOn).toBe(false)
    expect(existsSync(join(folder, ".unfinished"))).toBe(false)
  })

  // seen to fail: the hash not compared, so that the changed sums were believed
  test.each<[string, (bytes: Buffer) => Uint8Array]>([
    ["cut short", (bytes) => bytes.subarray(0, bytes.length - 8)],
    ["changed in one bit", (bytes) => bytes.fill(bytes[5000]! ^ 16, 5000, 5001)],
    ["empty", () => new Uint8Array(0)],
    ["of zeros", (bytes) => bytes.fill(0)],
  ])("whose file is %s is not believed, which is said, and ends with the same bytes", async (name, damage) => {
    const folder = place(`damaged-${name}`)
    await crash(folder, 50)
    const file = join(folder, ".unfinished", "shots.bin")
    writeFileSync(file, damage(readFileSync(file)))
    const warnings: string[] = []
    const checkpoint = await checkpointIn(folder, { warn: (text) => warnings.push(text) })
    expect(warnings).toEqual([`${file} is damaged and not used; what it held is done again`])
    expect(checkpoint.carriesOn).toBe(false)
    if (name === "changed in one bit") expect(bytesOf(await run({ checkpoint }))).toBe(undisturbed)
  })
})

describe("a full disk", () => {
  /** Full once some files are written. */
  function fullAfter(files: number): Disk {
    let written = 0
    return {
      ...thisDisk,
      async write(path, content) {
        if (written++ < files) return thisDisk.write(path, content)
        await thisDisk.write(path, content.subarray(0, 100))
        throw Object.assign(new Error("no space left on device"), { code: "ENOSPC" })
      },
    }
  }

  test.each([0, 1])("after %i files is told once, stops no run, and spoils nothing kept before", async (files) => {
    const folder = place(`full-${files}`)
    const warnings: string[] = []
    const full = { disk: fullAfter(files), warn: (text: string) => void warnings.push(text) }
    expect(bytesOf(await run({ checkpoint: await checkpointIn(folder, full) }))).toBe(undisturbed)
    expect(warnings).toHaveLength(1)
    expect(warnings[0]).toContain("free space on the disk must be enough for the file")
    expect(readdirSync(join(folder, ".unfinished")).filter((name) => name.includes("partial"))).toEqual([])
    const checkpoint = await checkpointIn(folder)
    expect(checkpoint.carriesOn).toBe(files > 0)
    expect(bytesOf(await run({ checkpoint }))).toBe(undisturbed)
  })
})
