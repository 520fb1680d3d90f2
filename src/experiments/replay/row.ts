/** A line of a story: what stands in the margin, "" for nothing, and the text beside it. */
export interface Row {
  readonly label: string
  readonly text: string
}
