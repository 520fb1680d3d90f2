// How many shots a result needs with scrambled Sobol points and with independent draws. Run after `npm run build`:
// node benchmarks/variance.mjs [rates] [pairs] [shipped] [between] [slope] [held]
// measures the parts named, all of them unless some are, keeps what it found in out/variance, and writes variance.md
// from all that is there.
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs"
import { betweenText, findBetween } from "./variance/between.mjs"
import { findHeld, heldText } from "./variance/held.mjs"
import { findPairs, pairsText } from "./variance/pairs.mjs"
import { findRates, ratesText } from "./variance/rates.mjs"
import { findShipped, shippedText } from "./variance/shipped.mjs"
import { findSlopes, slopesText } from "./variance/slope.mjs"

const PARTS = {
  rates: [findRates, ratesText],
  pairs: [findPairs, pairsText],
  shipped: [findShipped, shippedText],
  between: [findBetween, betweenText],
  slope: [findSlopes, slopesText],
  held: [findHeld, heldText],
}
const FOLDER = new URL("../out/variance/", import.meta.url)
const fileOf = (part) => new URL(`${part}.json`, FOLDER)

const named = process.argv.slice(2)
mkdirSync(FOLDER, { recursive: true })
for (const [part, [find]] of Object.entries(PARTS)) {
  if (named.length > 0 && !named.includes(part)) continue
  writeFileSync(fileOf(part), JSON.stringify(find()))
  console.log(`${part} found`)
}

const found = Object.keys(PARTS).filter((part) => existsSync(fileOf(part)))
const days = [...new Set(found.map((part) => statSync(fileOf(part)).mtime.toISOString().slice(0, 10)))].sort()
const head = [
  "# Shots that a result needs",
  "",
  "Written by `npm run build && node benchmarks/variance.mjs`, some minutes of one thread. Shots are counted for each design",
  `point. The plain estimator counts whole saves; the conditional one integrates the reaction out (DEVELOPERS.md). Measured`,
  `on ${days.join(" and ")}.`,
]
const sections = found.flatMap((part) => {
  const [, text] = PARTS[part]
  return ["", text(JSON.parse(readFileSync(fileOf(part), "utf8")))]
})
writeFileSync(new URL("variance.md", import.meta.url), `${[...head, ...sections].join("\n")}\n`)
