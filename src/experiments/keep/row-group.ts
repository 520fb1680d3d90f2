import type { ColumnSource, ParquetWriter, SchemaElement } from "hyparquet-writer"
import type { SeedKey } from "../../sim/random/streams.ts"
import type { Engine } from "../../sim/sampling.ts"
import { RECORD_LENGTH, recordShot } from "../../sim/shot-record.ts"
import { makeShots } from "../../sim/shots.ts"
import { type KeptColumn, keptColumns, type Row } from "./columns.ts"
import type { KeptLayout, PoseLabel } from "./layout.ts"

/** Some whole batches of one group, counted through all replicates. Structured-clone safe. */
export interface KeepTask {
  readonly group: number
  readonly first: number
  readonly count: number
  /** Batches of a replicate; of each pose those that it met, the first ones; and shots of a batch. */
  readonly batches: number
  readonly ends: readonly number[]
  readonly batch: number
  readonly layout: KeptLayout
  /** One for each pose of the group. */
  readonly labels: readonly PoseLabel[]
}

/** What the end of a Parquet file says of one row group. */
export type RowGroup = ParquetWriter["row_groups"][number]

/** One row group of the file: its bytes, and what the end of the file says of it, as if it stood alone. */
export interface EncodedRows {
  readonly bytes: Uint8Array
  readonly rowGroup: RowGroup
}

/** Bytes before the first row group. */
export const MAGIC = new TextEncoder().encode("PAR1")
/** Columns by which a reader looks for rows: least and greatest value stand at the end of the file. */
const SOUGHT = ["point", "replicate", "shot"]

/** The columns as Parquet's own description. */
export function schemaOf(columns: readonly KeptColumn[]): SchemaElement[] {
  const elements = columns.map(
    ({ name, type, optional }): SchemaElement => ({
      name,
      repetition_type: optional ? "OPTIONAL" : "REQUIRED",
      ...(type === "STRING" ? { type: "BYTE_ARRAY", converted_type: "UTF8" } : { type }),
    }),
  )
  return [{ name: "shots", num_children: elements.length }, ...elements]
}

/** Fires the batches of a task again and encodes a row for every shot and pose, all poses of a shot together. */
export async function encodeRows(engine: Engine, key: SeedKey, task: KeepTask): Promise<EncodedRows> {
  const { ByteWriter, ParquetWriter } = await import("hyparquet-writer")
  const columns = keptColumns(task.layout)
  const columnData = columns.map(({ name }): ColumnSource => {
    return { name, data: [], offsetIndex: false, statistics: SOUGHT.includes(name) }
  })
  const rows = rowsOf(task)
  fillRows(engine, key, task, rows, columns, columnData)
  const writer = new ByteWriter()
  const parquet = new ParquetWriter({ writer, schema: schemaOf(columns) })
  parquet.write({ columnData, rowGroupSize: rows })
  return { bytes: writer.getBytes().slice(MAGIC.length), rowGroup: parquet.row_groups[0]! }
}

/** Rows of a task: of every batch, its shots times the poses that met it. */
function rowsOf(task: KeepTask): number {
  let met = 0
  for (let b = task.first; b < task.first + task.count; b++) met += posesAt(task, b).length
  return met * task.batch
}

/** Poses that met batch `b` of a task, counted through all replicates. */
function posesAt({ batches, ends }: KeepTask, b: number): number[] {
  return [...ends.keys()].filter((pose) => b % batches < ends[pose]!)
}

function fillRows(
  engine: Engine,
  key: SeedKey,
  task: KeepTask,
  rows: number,
  columns: readonly KeptColumn[],
  into: readonly ColumnSource[],
): void {
  const { goalkeeping: g, batch, outcome } = engine
  const { labels } = task
  const data = into.map((source, at) => {
    const cells = columns[at]!.optional || columns[at]!.type === "STRING" ? new Array(rows) : new Float64Array(rows)
    source.data = cells
    return cells
  })
  const row: Row = { scene: g.scene, batch, record: new Float64Array(RECORD_LENGTH), label: labels[0]!, i: 0 }
  let at = 0
  for (let b = task.first; b < task.first + task.count; b++) {
    const replicate = Math.floor(b / task.batches)
    makeShots(g.scene, key, replicate, (b % task.batches) * task.batch, task.batch, batch)
    const poses = posesAt(task, b)
    for (row.i = 0; row.i < task.batch; row.i++)
      for (const p of poses) {
        row.label = labels[p]!
        recordShot(g, batch, row.i, p, outcome, row.record)
        for (let c = 0; c < columns.length; c++) data[c]![at] = columns[c]!.read(row)
        at++
      }
  }
}
