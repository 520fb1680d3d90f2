/** A table of Markdown, the first column to the left and the others to the right. */
export function table(head, rows) {
  const line = (cells) => `| ${cells.join(" | ")} |`
  return [line(head), line(head.map((_, i) => (i === 0 ? "---" : "---:"))), ...rows.map(line)].join("\n")
}

/** Nanoseconds to the last whole one. */
export function ns(value) {
  return value.toFixed(0)
}

/** Seconds as whole milliseconds. */
export function ms(seconds) {
  return (1e3 * seconds).toFixed(0)
}

export function percent(share) {
  return `${(100 * share).toFixed(0)} %`
}

/** A count to three digits. */
export function count(value) {
  return Number(value.toPrecision(3)).toLocaleString("en-GB")
}
