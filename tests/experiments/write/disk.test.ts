import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, describe, expect, it } from "vitest"
import { thisDisk } from "../../../src/experiments/write/disk.ts"

const folder = mkdtempSync(join(tmpdir(), "goalmouth-disk-"))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

describe("making a folder", () => {
  it("makes those above it too, and leaves one that is there", async () => {
    const path = join(folder, "one", "two", "three")
    await thisDisk.makeFolder(path)
    expect(statSync(path).isDirectory()).toBe(true)
    await thisDisk.makeFolder(path)
    expect(statSync(path).isDirectory()).toBe(true)
  })

  it("says so where a file bears its name, or that of a folder above it", async () => {
    const file = join(folder, "file")
    writeFileSync(file, "")
    await expect(thisDisk.makeFolder(file)).rejects.toMatchObject({ code: "EEXIST" })
    await expect(thisDisk.makeFolder(join(file, "below"))).rejects.toMatchObject({ code: "ENOTDIR" })
  })

  // Node's own recursive call asks for ever there
  const takesNone = existsSync("/proc/self")
  it(`says so where the file system takes no folders${takesNone ? "" : " (not tried: there is none here)"}`, async () => {
    if (!takesNone) return
    await expect(thisDisk.makeFolder("/proc/goalmouth")).rejects.toMatchObject({ code: "ENOENT" })
    await expect(thisDisk.makeFolder("/proc/goalmouth/below")).rejects.toMatchObject({ code: "ENOENT" })
  })
})
