import ts from "typescript"
import { describe, expect, test } from "vitest"
import { nodesBelow, placeOf, sourcesBelow, treeOf } from "./tree.ts"

/** What a check names: a work, a rule or the arithmetic it was worked out by, in at least a few words. */
const SOURCE = /\/\/ source: \S[^\n]{9,}/

const CHECKS = sourcesBelow("tests/published").filter((path) => path.endsWith(".test.ts"))

/** The comment lines that stand directly above a node, no blank line between, joined. */
function commentsAbove(node: ts.Node): string {
  const text = node.getSourceFile().text
  const ranges = ts.getLeadingCommentRanges(text, node.getFullStart()) ?? []
  let below = node.getStart()
  const kept: string[] = []
  for (const range of ranges.toReversed()) {
    if (/\n\s*\n/.test(text.slice(range.end, below))) break
    kept.unshift(text.slice(range.pos, range.end))
    below = range.pos
  }
  return kept.join("\n")
}

/** Calls of test() and test.each()(), which is to say the checks of a file. */
function checksOf(tree: ts.SourceFile): ts.CallExpression[] {
  return [...nodesBelow(tree)].filter((node): node is ts.CallExpression => {
    if (!ts.isCallExpression(node)) return false
    if (ts.isIdentifier(node.expression)) return node.expression.text === "test"
    return ts.isCallExpression(node.expression) && /^test\.each\b/.test(node.expression.expression.getText())
  })
}

/** Published tables at the top of a file that carry their source: what uses one of them has named it. */
function sourcedTables(tree: ts.SourceFile): Set<string> {
  const names = new Set<string>()
  for (const statement of tree.statements) {
    if (!ts.isVariableStatement(statement) || !SOURCE.test(commentsAbove(statement))) continue
    for (const { name } of statement.declarationList.declarations) names.add(name.getText())
  }
  return names
}

/** In the check itself, in the comment directly above it, or above the table it is drawn from. */
function namesSource(check: ts.CallExpression, tables: ReadonlySet<string>): boolean {
  if (SOURCE.test(check.getText()) || SOURCE.test(commentsAbove(check.parent))) return true
  return [...nodesBelow(check)].some((node) => ts.isIdentifier(node) && tables.has(node.text))
}

describe("checks against the outside", () => {
  // seen to fail: the source of the shrinking net taken off
  test("name their source beside them, each one", () => {
    const wrong = CHECKS.flatMap((path) => {
      const tree = treeOf(path)
      const tables = sourcedTables(tree)
      return checksOf(tree)
        .filter((check) => !namesSource(check, tables))
        .map((check) => `${placeOf(check)} ${check.arguments[0]?.getText() ?? ""}`)
    })
    expect(wrong).toEqual([])
  })

  test("are there: flight, ice and iron, goal, rink, body, box, shooter, intervals, random numbers", () => {
    expect(CHECKS.length).toBeGreaterThanOrEqual(10)
    const empty = CHECKS.filter((path) => checksOf(treeOf(path)).length === 0)
    expect(empty).toEqual([])
  })
})
