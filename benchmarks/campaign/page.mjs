import { wilson } from "../../dist/sim/statistics/wilson.js"

/** What a coverage has to lie within. */
const WANTED = [0.93, 0.97]

/** The page: for each part how often each figure's interval held the truth. */
export function coveragePage(found, { truth, date, also }) {
  const flag = also === "" ? "" : ` --also "${also}"`
  const lines = [
    "# Coverage of the intervals",
    "",
    `How often 95 % intervals hold the truth: runs of small questions, each under a seed of its own, counted against one run`,
    `of ${truth.toLocaleString("en-US")} shots. Written by \`npm run build && node benchmarks/coverage.mjs${flag}\` on ${date}; the seed of run i of a part is`,
    '"coverage", the name of the part and i, from 0; that of the long run is "truth" and the name of the scene. What was',
    "found lies in `out/coverage`, a line a run; the same command carries on where it was stopped. The scenes stand in",
    "`campaign/scenes.mjs`. The interval of a coverage is Wilson's at 95 %; with 1,000 runs it is about ± 1.4 %, so a figure",
    "whose true coverage is 94 % is found below 93 % once in ten campaigns. Of 1,024 shots 850 to 890 are on goal. All depths of",
    "a run meet the same shots, so its figures are not independent of each other. Where a rate is waited for, a depth that is known",
    "takes no more of them, and depths are compared by those that all have met.",
    "",
  ]
  const all = []
  for (const { part, truth: true_, runs } of found) {
    lines.push(
      `## ${part.name}`,
      "",
      `\`${part.lines.replace("\n", "`, `")}\`: ${runs.length} runs; ${shotsText(runs)}.`,
      "",
    )
    if (part.note && runs.length > 1000) lines.push(part.note, "")
    lines.push("| figure | truth | half-width | half-width of the truth | held | coverage | 93 to 97 % |")
    lines.push("| --- | ---: | ---: | ---: | ---: | ---: | --- |")
    for (const [name, [mean, low, high]] of Object.entries(true_)) {
      const row = coverageOf(runs, name, mean)
      all.push(row)
      lines.push(`| ${name} | ${rowText(name, row, { mean, half: (high - low) / 2 })} |`)
    }
    lines.push("")
  }
  const inside = all.filter(isInside).length
  lines.push("## In short", "", `${inside} of ${all.length} coverages lie within 93 to 97 %.`, "")
  if (found.some(({ part, runs }) => part.note && runs.length > 1000))
    lines.splice(-1, 0, "One of them did so only once its part was carried on, as said there.")
  return lines.join("\n")
}

function shotsText(runs) {
  const counts = new Map()
  for (const { shots } of runs) counts.set(shots, (counts.get(shots) ?? 0) + 1)
  const sorted = [...counts].sort(([a], [b]) => a - b)
  if (sorted.length === 1) return `${sorted[0][0].toLocaleString("en-US")} shots at each depth`
  return sorted.map(([shots, n]) => `${n} of ${shots.toLocaleString("en-US")} shots at a depth at most`).join(", ")
}

function coverageOf(runs, name, truth) {
  let held = 0
  let half = 0
  for (const { found } of runs) {
    const [, low, high] = found[name]
    held += Number(low <= truth && truth <= high)
    half += (high - low) / 2 / runs.length
  }
  return { held, n: runs.length, half, share: wilson(held, runs.length, 0.95) }
}

function isInside({ share }) {
  return share.mean >= WANTED[0] && share.mean <= WANTED[1]
}

/** Shares in percent, places in metres. */
function rowText(name, row, truth) {
  const isPlace = name === "best depth"
  const shown = (value, digits) => (isPlace ? `${value.toFixed(digits + 1)} m` : `${(100 * value).toFixed(digits)} %`)
  const { mean, low, high } = row.share
  const percent = (share) => (100 * share).toFixed(1)
  return [
    shown(truth.mean, 2),
    shown(row.half, 2),
    `${shown(truth.half, 3)}, ${(truth.half / row.half).toFixed(2)} of it`,
    `${row.held} of ${row.n}`,
    `${percent(mean)} % [${percent(low)}, ${percent(high)}]`,
    isInside(row) ? "yes" : "no",
  ].join(" | ")
}
