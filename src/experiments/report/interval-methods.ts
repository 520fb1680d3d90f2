import type { PointResult } from "../results.ts"

/** How an interval was made, in words, in the order they are read; several of the first are said once. */
const WORDS: readonly (readonly [method: string, words: string])[] = [
  ["ratio over replicates, t", "Student's t on ratios of sums over the replicates"],
  ["mean over replicates, t", "Student's t on means over the replicates"],
  ["ratio over replicates, Wilson by count", "Wilson's interval by count where hardly anything was seen"],
  ["Wilson", "Wilson's interval by count"],
  ["ratio over replicates, none seen", "all there can be where nothing was seen"],
  [
    "paired difference of ratios over replicates, t",
    "Student's t on differences of such ratios, paired by their shots",
  ],
  ["hybrid score, arms taken as independent", "both arms as if independent where neither has a spread"],
  ["identical on every shot", "no width where nothing differs on any shot"],
  [
    "normal approximation at the ends of the paired difference",
    "the normal approximation at the ends of the difference for the shots that would show it",
  ],
]

/** What an estimate of a run that waited for a half-width says of itself after how it was made; the run length says it for all. */
const WAITED = /, 3 % wider as it was waited for$/

/** Every way in which the intervals of some points were made, each once; one without words of its own by its name. */
export function intervalMethods(points: readonly Pick<PointResult, "estimates">[]): string {
  const found = new Set(
    points.flatMap(({ estimates }) => Object.values(estimates).map(({ method }) => method.replace(WAITED, ""))),
  )
  const told = WORDS.flatMap(([method, words]) => (found.has(method) ? [words] : []))
  const known = new Set(WORDS.map(([method]) => method))
  return [...told, ...[...found].filter((method) => !known.has(method))].join("; ")
}
