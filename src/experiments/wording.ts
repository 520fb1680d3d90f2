/** `a, b or c`. */
export function joinOr(words: readonly string[]): string {
  if (words.length < 2) return words.join("")
  return `${words.slice(0, -1).join(", ")} or ${words[words.length - 1]}`
}

/** `1 point`, `12 points`, with thousands set apart. */
export function count(n: number, noun: string): string {
  return `${n.toLocaleString("en-US")} ${noun}${n === 1 ? "" : "s"}`
}

/** A number with at most so many significant digits and no trailing zeros. */
export function trimNumber(value: number, digits: number): string {
  const rounded = Number(value.toPrecision(digits))
  return String(rounded === 0 ? 0 : rounded)
}
