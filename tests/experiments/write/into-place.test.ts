import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterEach, beforeEach, expect, test } from "vitest"
import { type Disk, thisDisk } from "../../../src/experiments/write/disk.ts"
import { checkOutputFolder, type RunFile, writeIntoPlace } from "../../../src/experiments/write/into-place.ts"
import { OutputError, outputError } from "../../../src/experiments/write/output-error.ts"

let folder = ""
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "goalmouth-write-"))
})
afterEach(async () => {
  await rm(folder, { recursive: true, force: true })
})

function file(path: string, text: string): RunFile {
  return { path, content: new TextEncoder().encode(text) }
}

/** The real disk until the n-th file, then full. */
function fullAfter(files: number): Disk {
  let written = 0
  return {
    ...thisDisk,
    async write(path, content) {
      if (written++ < files) return thisDisk.write(path, content)
      await thisDisk.write(path, content.slice(0, 1))
      throw Object.assign(new Error("no space left on device"), { code: "ENOSPC" })
    },
  }
}

async function failure(action: Promise<unknown>): Promise<OutputError> {
  const caught = await action.then(
    () => null,
    (cause: unknown) => cause,
  )
  expect(caught).toBeInstanceOf(OutputError)
  return caught as OutputError
}

test("writeIntoPlace() makes the folders and leaves no partial file", async () => {
  await writeIntoPlace(join(folder, "a/b"), [file("results.csv", "1"), file("charts/curve.svg", "2")])
  expect(await readdir(join(folder, "a/b"))).toEqual(["charts", "results.csv"])
  expect(await readFile(join(folder, "a/b/charts/curve.svg"), "utf8")).toBe("2")
})

test("writeIntoPlace() on a full disk leaves every file of the earlier run as it was, and no partial file", async () => {
  await writeIntoPlace(folder, [file("results.csv", "old"), file("results.json", "old")])
  // mutation seen red: each file renamed as soon as it is written (results.csv new, results.json old)
  const caught = await failure(
    writeIntoPlace(folder, [file("results.csv", "new"), file("results.json", "new")], fullAfter(1)),
  )
  expect(caught.message).toBe(
    `Cannot write ${join(folder, "results.json")} as free space on the disk must be enough for the file: current value is none left (ENOSPC)`,
  )
  expect(await readFile(join(folder, "results.csv"), "utf8")).toBe("old")
  expect(await readdir(folder)).toEqual(["results.csv", "results.json"])
})

test("writeIntoPlace() names the path when a file stands where a folder must be", async () => {
  await writeFile(join(folder, "out"), "a file")
  const inTheWay = await failure(writeIntoPlace(join(folder, "out"), [file("results.csv", "1")]))
  expect(inTheWay.message).toBe(
    `Cannot write ${join(folder, "out")} as the output folder must be a folder: current value is a file of that name (EEXIST)`,
  )
  const below = await failure(writeIntoPlace(join(folder, "out/deeper"), [file("results.csv", "1")]))
  expect(below.code).toBe("ENOTDIR")
  expect(below.message).toContain("every name before the last must be a folder")
})

test("writeIntoPlace() names the path when a folder stands where a file must be", async () => {
  await mkdir(join(folder, "results.csv"))
  const caught = await failure(writeIntoPlace(folder, [file("results.csv", "1")]))
  expect(caught.message).toContain(`${join(folder, "results.csv")} as the name must be free or a file`)
  expect(await readdir(folder)).toEqual(["results.csv"])
})

test("outputError() says who may not write, and gives the code of what it does not know", () => {
  const denied = outputError("out/x.csv", Object.assign(new Error("denied"), { code: "EACCES" }))
  expect(denied.message).toBe(
    "Cannot write out/x.csv as the folder must be open to writing: current value is closed to this user (EACCES)",
  )
  expect(outputError("out/x.csv", Object.assign(new Error("?"), { code: "EIO" })).message).toBe(
    "Cannot write out/x.csv as the place must take files: current value is EIO",
  )
})

test("checkOutputFolder() makes the folder and leaves it empty, and refuses what cannot be written", async () => {
  await checkOutputFolder(join(folder, "new"))
  expect(await readdir(join(folder, "new"))).toEqual([])
  await writeFile(join(folder, "out"), "a file")
  expect((await failure(checkOutputFolder(join(folder, "out")))).code).toBe("EEXIST")
  expect((await failure(checkOutputFolder(join(folder, "new"), fullAfter(0)))).code).toBe("ENOSPC")
  expect(await readdir(join(folder, "new"))).toEqual([])
})
