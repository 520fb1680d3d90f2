import type { Table } from "./table.ts"

/** The table as a Parquet file: numbers are DOUBLE, texts UTF-8; what it is stands in the file's own metadata. */
export async function parquetOf(table: Table, facts: Readonly<Record<string, string>>): Promise<Uint8Array> {
  const { parquetWriteBuffer } = await import("hyparquet-writer")
  const buffer = parquetWriteBuffer({
    columnData: table.columns.map((column) => ({
      name: column.name,
      data: [...column.values],
      type: column.kind === "text" ? ("STRING" as const) : ("DOUBLE" as const),
      nullable: column.kind === "number",
    })),
    kvMetadata: Object.entries(facts).map(([key, value]) => ({ key, value })),
    createdBy: "goalmouth",
  })
  return new Uint8Array(buffer)
}
