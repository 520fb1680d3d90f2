/** What the contact stage found, as a section of a page of Markdown. */
export function contactSection(r) {
  const rows = [
    ["TypeScript, `solveRow`", r.typescript, ""],
    ["plain C++ (`yardstick/contact.hpp`)", r.scalar, "g++"],
    ["C++, four at a time with AVX2 (`contact/four.hpp`)", r.four, "g++ and a processor with AVX2"],
    ["NumPy, all pairs side by side (`contact/clearances.py`)", r.numpy, "Python with NumPy"],
    ["a cast of Jolt, which finds the first hit and no clearance (`contact/casts.mjs`)", r.casts, ""],
  ]
  const head = ["one clearance", "ns", "speed, TypeScript : it", "largest difference, m", "99 % within, m"]
  const lines = [head, head.map((_, i) => (i === 0 ? "---" : "---:"))]
  for (const [name, row, needs] of rows) lines.push(cellsOf(name, row, needs, r.typescript.ns))
  return `## One contact

The clearance of the puck's disc on a straight path from one rounded box, searched for anew: ${thousands(r.pairs)} pairs, each part of the
default goalie in the set posture with the path of each shot on goal from 8 m, drawn on past the body. ${percent(r.touching, 1)} of the
paths touch the part, ${percent(r.overlapping, 1)} enter its core. In double precision and by the same search; differences are from
TypeScript's answers. C++ and NumPy are given the pairs in the order that suits them. The compiled kernel hands out no
single clearance; it is measured whole, above.

${lines.map((cells) => `| ${cells.join(" | ")} |`).join("\n")}

${castsOf(r.casts)}`
}

function cellsOf(name, row, needs, typescript) {
  if (row === undefined) return [name, `not run: needs ${needs}`, "", "", ""]
  const differs = row.largest === undefined ? ["", ""] : [row.largest.toExponential(0), row.most.toExponential(0)]
  return [name, row.ns.toFixed(0), (row.ns / typescript).toFixed(2), ...differs]
}

function castsOf(casts) {
  const { hits, misses, parts } = casts
  const clear =
    parts === 0
      ? ""
      : `;
where the two part, the clearance is ${parts.toExponential(0)} m at most`
  return `The casts are those of a general engine for rigid bodies, called from JavaScript and in single precision: a cylinder with a margin at a
sharp box. They hit on ${percent(hits, 2)} of the paths that touch and miss on ${percent(misses, 2)} of those that pass${clear}.`
}

function percent(share, digits) {
  return `${(100 * share).toFixed(digits)} %`
}

function thousands(value) {
  return value.toLocaleString("en-GB")
}
