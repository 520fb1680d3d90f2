import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"

const ODD = [
  "",
  "[",
  "]",
  "{",
  "}",
  ":",
  "-",
  "#",
  "&a",
  "*a",
  "!!binary",
  "|",
  ">",
  "\t",
  "\u0000",
  "\uFEFF",
  "\u202E",
  "💥",
  "null",
  "~",
  "true",
  "NaN",
  "Infinity",
  "-1",
  "0",
  "1e999",
  "-1e-999",
  "0x1F",
  "1_000",
  "9".repeat(400),
  "a".repeat(5000),
  "1 m",
  "3 furlongs",
  "[".repeat(500),
  "<<: *a",
  "__proto__: 1",
  "constructor",
  "../../..",
  "goalie: [goalie]",
  "? ",
  "---",
  "...",
  "%YAML 9.9",
]

const pick = (list, chance) => list[Math.floor(chance() * list.length)]

/** Ways to spoil a text; each gets its lines and may change them. */
const WAYS = [
  (lines, chance) => lines.splice(Math.floor(chance() * lines.length), 1),
  (lines, chance) => lines.splice(Math.floor(chance() * lines.length), 0, pick(lines, chance)),
  (lines, chance) => lines.splice(Math.floor(chance() * lines.length), 0, pick(ODD, chance)),
  (lines, chance) => lines.splice(1 + Math.floor(chance() * lines.length)),
  (lines, chance) => change(lines, chance, (line) => `${" ".repeat(1 + Math.floor(3 * chance()))}${line}`),
  (lines, chance) => change(lines, chance, (line) => line.replace(/-?\d+(\.\d+)?/, () => pick(ODD, chance))),
  (lines, chance) => change(lines, chance, (line) => line.replace(/:.*/, () => `: ${pick(ODD, chance)}`)),
  (lines, chance) => change(lines, chance, (line) => line.replace(/[a-z_]+/, (word) => word.slice(1))),
  (lines, chance) =>
    change(lines, chance, (line) =>
      line.replace(/\b(m|cm|deg|km\/h|ft)\b/, () => pick(["s", "ft", "kg", "%", ""], chance)),
    ),
  (lines, chance) =>
    change(lines, chance, (line) => {
      const at = Math.floor(chance() * (line.length + 1))
      return (
        line.slice(0, at) + String.fromCharCode(Math.floor(chance() * 256)) + line.slice(at + Math.floor(2 * chance()))
      )
    }),
]

function change(lines, chance, how) {
  const at = Math.floor(chance() * lines.length)
  if (lines[at] !== undefined) lines[at] = how(lines[at])
}

/** Texts of the shipped experiments, each spoilt in one to four ways. */
export function mutants(folder, chance) {
  const texts = readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => readFileSync(join(folder, name), "utf8"))
  return () => {
    const lines = pick(texts, chance).split("\n")
    for (let i = 1 + Math.floor(4 * chance()); i > 0; i--) pick(WAYS, chance)(lines, chance)
    return lines.join("\n")
  }
}
