import { readFileSync } from "node:fs"
import { fileURLToPath } from "node:url"
import { FONT } from "../charts/look.ts"

/** Weights of the font that charts and page use. */
const WEIGHTS = [400, 600, 700] as const

/**
 * Style rules that hold the font itself, so that text is as wide on every screen as the charts were laid out for and
 * nothing is fetched. Latin letters and signs; any other character is drawn in a font of the machine.
 */
export function pageFont(): string {
  return WEIGHTS.map((weight) => {
    const file = import.meta.resolve(`@fontsource/inter/files/inter-latin-${weight}-normal.woff2`)
    const data = readFileSync(fileURLToPath(file)).toString("base64")
    return `@font-face { font-family: ${FONT}; font-weight: ${weight}; src: url(data:font/woff2;base64,${data}) format("woff2"); }\n`
  }).join("")
}
