import { access, constants, mkdir, open, readFile, rename, rm, stat } from "node:fs/promises"
import { dirname } from "node:path"

/** The few things writing asks of a file system, so that a full or broken one can stand in. */
export interface Disk {
  makeFolder(path: string): Promise<void>
  /** Writes a whole new file and waits until it is on the disk. */
  write(path: string, content: Uint8Array): Promise<void>
  /** Writes bytes at a place of a file, which is made where there is none, and cuts off what lies beyond. */
  writeAt(path: string, at: number, content: Uint8Array): Promise<void>
  /** Waits until all of a file is on the disk. */
  settle(path: string): Promise<void>
  /** The text of a file, or null where there is none to be read. */
  read(path: string): Promise<string | null>
  rename(from: string, to: string): Promise<void>
  remove(path: string): Promise<void>
  writable(path: string): Promise<void>
  /** Throws EISDIR where a folder bears the name of a file to be written. */
  takesFile(path: string): Promise<void>
}

/**
 * Makes a folder and those above it that are not there yet. Each is asked for once: where a file system takes none, as
 * that of /proc, Node's own recursive call asks for ever.
 */
async function makeFolders(path: string): Promise<void> {
  try {
    await mkdir(path)
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException
    if (code === "ENOENT" && dirname(path) !== path) {
      await makeFolders(dirname(path))
      await mkdir(path)
    } else if (code !== "EEXIST" || !(await stat(path)).isDirectory()) throw error
  }
}

/** The file system of this machine. */
export const thisDisk: Disk = {
  makeFolder: makeFolders,
  async write(path, content) {
    const file = await open(path, "w")
    try {
      await file.writeFile(content)
      await file.sync()
    } finally {
      await file.close()
    }
  },
  async writeAt(path, at, content) {
    const file = await open(path, constants.O_RDWR | constants.O_CREAT)
    try {
      await file.truncate(at)
      let done = 0
      while (done < content.length)
        done += (await file.write(content, done, content.length - done, at + done)).bytesWritten
    } finally {
      await file.close()
    }
  },
  async settle(path) {
    const file = await open(path, "r+")
    try {
      await file.sync()
    } finally {
      await file.close()
    }
  },
  read: (path) => readFile(path, "utf8").catch(() => null),
  rename,
  async remove(path) {
    await rm(path, { force: true })
  },
  async writable(path) {
    await access(path, constants.W_OK)
  },
  async takesFile(path) {
    const found = await stat(path).catch(() => null)
    if (found?.isDirectory() === true) throw Object.assign(new Error("a folder is in the way"), { code: "EISDIR" })
  },
}
