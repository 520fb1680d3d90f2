import { distance } from "fastest-levenshtein"

/** The known word nearest to an unknown one, or null when none is near enough to be a slip of the pen. */
export function nearest(word: string, known: readonly string[]): string | null {
  const wanted = word.toLowerCase()
  let best: string | null = null
  // a third of the last part of a dotted key may be wrong: a longer key is no licence to guess
  const last = wanted.length - wanted.lastIndexOf(".") - 1
  let fewest = Math.max(2, Math.floor(last / 3)) + 1
  for (const candidate of known) {
    const edits = distance(wanted, candidate.toLowerCase())
    if (edits < fewest) {
      best = candidate
      fewest = edits
    }
  }
  return best
}

/** `did you mean X?`, or the whole list when it is short, or null. */
export function suggestion(word: string, known: readonly string[]): string | null {
  const near = nearest(word, known) ?? lastPartMatch(word, known)
  return near === null ? null : `did you mean ${near}?`
}

/** A key written without its section or under the wrong one: `depth` or `play.depth` for `goalie.depth`. */
function lastPartMatch(word: string, known: readonly string[]): string | null {
  const last = word.slice(word.lastIndexOf(".") + 1).toLowerCase()
  const ends = known.filter((key) => key.toLowerCase().endsWith(`.${last}`))
  return ends.length === 1 ? ends[0]! : null
}
