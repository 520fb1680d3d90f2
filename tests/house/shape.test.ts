import ts from "typescript"
import { describe, expect, test } from "vitest"
import { filesBelow, nodesBelow, placeOf, sourcesBelow, textOf, treeOf } from "./tree.ts"

/** A file is read in one sitting, a function at one glance. */
const LONGEST_FILE = 400
const LONGEST_FUNCTION = 60
/** One inner loop is kept whole: its numbers stay in locals, which calls would spill. */
const WHOLE_KERNELS: Readonly<Record<string, number>> = { distanceInPlane: 128 }
/** Names that say nothing of what a file is for. */
const EMPTY_NAMES = /^(utils?|utilities|help(er|ers)?|misc|common|shared|stuff|lib|tools|index|types|constants)\b/

const CODE = [...sourcesBelow("src"), ...sourcesBelow("tests"), ...sourcesBelow("benchmarks")]

function linesOf(node: ts.Node): number {
  const file = node.getSourceFile()
  const line = (position: number) => file.getLineAndCharacterOfPosition(position).line
  return line(node.getEnd()) - line(node.getStart()) + 1
}

function nameOf(node: ts.Node): string {
  const named = node as { readonly name?: ts.Node }
  if (named.name !== undefined) return named.name.getText()
  return ts.isVariableDeclaration(node.parent) ? node.parent.name.getText() : "unnamed"
}

function longest(node: ts.Node): number {
  return WHOLE_KERNELS[nameOf(node)] ?? LONGEST_FUNCTION
}

describe("files and functions", () => {
  // seen to fail: with a limit of 280 lines
  test(`are at most ${LONGEST_FILE} lines long`, () => {
    const long = CODE.map((path) => [path, textOf(path).trimEnd().split("\n").length] as const)
    expect(long.filter(([, lines]) => lines > LONGEST_FILE)).toEqual([])
  })

  // seen to fail: with a limit of 40 lines
  test(`of the source run over at most ${LONGEST_FUNCTION} lines`, () => {
    const long = sourcesBelow("src").flatMap((path) =>
      [...nodesBelow(treeOf(path))]
        .filter((node) => ts.isFunctionLike(node) && "body" in node && linesOf(node) > longest(node))
        .map((node) => `${placeOf(node)} ${nameOf(node)}: ${linesOf(node)} lines`),
    )
    expect(long).toEqual([])
  })

  test("kept whole are still that long, or lose their exception", () => {
    const lengths = new Map(
      sourcesBelow("src/sim").flatMap((path) =>
        [...nodesBelow(treeOf(path))]
          .filter(ts.isFunctionDeclaration)
          .map((node) => [nameOf(node), linesOf(node)] as const),
      ),
    )
    expect(Object.keys(WHOLE_KERNELS).filter((name) => !((lengths.get(name) ?? 0) > LONGEST_FUNCTION))).toEqual([])
  })

  // seen to fail: a file called utils.ts
  test("are named for what they do", () => {
    const wrong = CODE.filter(
      (path) => !/^(src\/index|tests\/index\.test)\.ts$/.test(path) && EMPTY_NAMES.test(path.split("/").at(-1)!),
    )
    expect(wrong).toEqual([])
    expect(CODE.filter((path) => !/^[a-z0-9./-]+$/.test(path))).toEqual([])
  })

  test("export by name alone", () => {
    const wrong = sourcesBelow("src").filter((path) => /^export default\b/m.test(textOf(path)))
    expect(wrong).toEqual([])
  })
})

describe("tests", () => {
  const held = ["sk" + "ip", "on" + "ly", "to" + "do", "fai" + "ls", "skip" + "If", "run" + "If"].join("|")

  // seen to fail: one of them held back
  test("all run: none is held back or run alone", () => {
    const pattern = new RegExp(`\\b(test|it|describe|suite)(\\.\\w+)*\\.(${held})\\b|\\b[xf](it|describe|test)\\(`)
    const wrong = sourcesBelow("tests").filter((path) => pattern.test(textOf(path)))
    expect(wrong).toEqual([])
  })

  test("stand in folders like those of what they test", () => {
    const own = new Set(["index.test.ts", "published", "golden", "house", "engine", "types", "benchmarks"])
    const rooms = new Set(filesBelow("src").map((path) => path.split("/")[1]!))
    const wrong = sourcesBelow("tests").filter(
      (path) => !own.has(path.split("/")[1]!) && !rooms.has(path.split("/")[1]!),
    )
    expect(wrong).toEqual([])
  })

  test("never draw from chance that no seed fixes, and time nothing", () => {
    const chance = new RegExp(["Math", "random\\(\\)"].join("\\."))
    const clock = new RegExp(["\\bDate", "now\\(\\)"].join("\\.") + "|" + ["\\bperformance", "now\\(\\)"].join("\\."))
    const wrong = sourcesBelow("tests").filter((path) => chance.test(textOf(path)) || clock.test(textOf(path)))
    expect(wrong).toEqual([])
  })
})
