import { join } from "node:path"
import { UNFINISHED } from "../run/checkpoint.ts"
import { type Disk, thisDisk } from "../write/disk.ts"
import { outputError } from "../write/output-error.ts"
import type { KeptColumn } from "./columns.ts"
import { type Entry, entriesOf, entryOf, intactOf, lineOf } from "./journal.ts"
import { type EncodedRows, MAGIC, type RowGroup, schemaOf } from "./row-group.ts"

/** Name of the file in the folder of the run. */
export const KEPT_FILE = "shots.parquet"

/**
 * The growing file of a run's shots. It lies with what is kept of an unfinished run until it is whole, and a run that
 * was killed goes on behind its last row group. All of it throws an OutputError where the disk takes nothing.
 */
export interface KeptFile {
  /** Where the whole file lies, to be moved into its place. */
  readonly path: string
  /** Opens it for a run, told apart by any text; how many row groups an earlier process has written. */
  begin(run: string): Promise<number>
  append(rows: EncodedRows): Promise<void>
  /** Writes the end of the file. */
  finish(columns: readonly KeptColumn[], facts: Readonly<Record<string, string>>): Promise<void>
}

/** The kept shots of the run in a folder. */
export function keptFile(folder: string, disk: Disk = thisDisk): KeptFile {
  const place = join(folder, UNFINISHED)
  const path = join(place, KEPT_FILE)
  const journal = join(place, "shots.journal")
  const rowGroups: RowGroup[] = []
  // ends of what is whole in the two files
  let end = MAGIC.length
  let journalEnd = 0

  const write = async (to: string, at: number, content: Uint8Array) => {
    try {
      await disk.writeAt(to, at, content)
    } catch (cause) {
      throw outputError(to, cause)
    }
    return at + content.length
  }
  const note = async (line: string) => {
    journalEnd = await write(journal, journalEnd, new TextEncoder().encode(line))
  }
  const take = ({ bytes, rowGroup }: Entry) => {
    rowGroups.push(movedBy(rowGroup, end - MAGIC.length))
    end += bytes
  }
  return {
    path,
    async begin(run) {
      const found = await intactOf(path, entriesOf((await disk.read(journal)) ?? "", run), MAGIC.length)
      try {
        await disk.makeFolder(place)
      } catch (cause) {
        throw outputError(place, cause)
      }
      if (found.length === 0) await write(path, 0, MAGIC)
      await note(lineOf({ run }) + found.map(lineOf).join(""))
      found.forEach(take)
      return found.length
    },
    async append(rows) {
      await write(path, end, rows.bytes)
      const entry = entryOf(rows)
      await note(lineOf(entry))
      take(entry)
    },
    async finish(columns, facts) {
      await write(path, end, await endOf(rowGroups, columns, facts))
      await disk.settle(path)
    },
  }
}

/** A row group that was encoded as if it came first, so many bytes farther on. */
function movedBy(rowGroup: RowGroup, bytes: number): RowGroup {
  const by = BigInt(bytes)
  return {
    ...rowGroup,
    columns: rowGroup.columns.map((column) => {
      const data = column.meta_data!
      const { dictionary_page_offset: dictionary } = data
      return {
        ...column,
        file_offset: column.file_offset + by,
        meta_data: {
          ...data,
          data_page_offset: data.data_page_offset + by,
          ...(dictionary === undefined ? {} : { dictionary_page_offset: dictionary + by }),
        },
      }
    }),
  }
}

/** What stands behind the row groups: what the file holds and where. */
async function endOf(
  rowGroups: RowGroup[],
  columns: readonly KeptColumn[],
  facts: Readonly<Record<string, string>>,
): Promise<Uint8Array> {
  const { ByteWriter, ParquetWriter } = await import("hyparquet-writer")
  const writer = new ByteWriter()
  const kvMetadata = Object.entries(facts).map(([key, value]) => ({ key, value }))
  const parquet = new ParquetWriter({ writer, schema: schemaOf(columns), kvMetadata, createdBy: "goalmouth" })
  parquet.row_groups = rowGroups
  parquet.num_rows = rowGroups.reduce((sum, { num_rows }) => sum + num_rows, 0n)
  parquet.finish()
  return writer.getBytes().slice(MAGIC.length)
}
