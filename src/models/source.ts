/** One entry of the bibliography: what a source key stands for. */
export interface Source {
  readonly title: string
  readonly authors?: string
  readonly year?: string
  readonly place?: string
  /** How the figure was seen: read in the source, quoted by another page, derived by arithmetic, or from memory. */
  readonly seen: "read" | "quoted" | "derived" | "memory"
}
