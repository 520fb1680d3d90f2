import { existsSync, readdirSync, readFileSync } from "node:fs"
import { join, relative, sep } from "node:path"
import { fileURLToPath } from "node:url"
import ts from "typescript"

/** Folder of the whole project. */
export const ROOT = fileURLToPath(new URL("../..", import.meta.url))

/** Folders that hold nothing of the project's own: what is installed, built, run or kept by version control. */
const FOREIGN = new Set(["node_modules", "dist", ".git", "coverage"])

/** Paths of all files below a folder that need not be there, from the project's root with forward slashes, in order. */
export function filesBelow(folder: string): string[] {
  if (!existsSync(join(ROOT, folder))) return []
  return readdirSync(join(ROOT, folder), { withFileTypes: true })
    .filter((entry) => !FOREIGN.has(entry.name))
    .flatMap((entry) => {
      const path = join(folder, entry.name)
      if (!entry.isDirectory()) return [path]
      return path === "out" ? [] : filesBelow(path)
    })
    .map((path) => path.split(sep).join("/"))
    .sort()
}

/** Sources below a folder. */
export function sourcesBelow(folder: string): string[] {
  return filesBelow(folder).filter((path) => path.endsWith(".ts"))
}

export function textOf(path: string): string {
  return readFileSync(join(ROOT, path), "utf8")
}

/** The syntax tree of a source, with parents. */
export function treeOf(path: string): ts.SourceFile {
  return ts.createSourceFile(path, textOf(path), ts.ScriptTarget.ES2022, true)
}

/** What a source imports, types and imports on demand included: paths from the root, or names of packages. */
export function importsOf(path: string): string[] {
  return ts.preProcessFile(textOf(path), true, true).importedFiles.map(({ fileName }) => {
    if (!fileName.startsWith(".")) return fileName
    return relative(ROOT, join(ROOT, path, "..", fileName))
      .split(sep)
      .join("/")
  })
}

/** Every node below another, itself first. */
export function* nodesBelow(node: ts.Node): Generator<ts.Node> {
  yield node
  const children: ts.Node[] = []
  ts.forEachChild(node, (child) => {
    children.push(child)
  })
  for (const child of children) yield* nodesBelow(child)
}

/** Where a node starts, as "path:line". */
export function placeOf(node: ts.Node): string {
  const file = node.getSourceFile()
  return `${file.fileName}:${file.getLineAndCharacterOfPosition(node.getStart()).line + 1}`
}

/** Every comment of a source, with the line it starts on (from 1). */
export function commentsOf(path: string): { readonly text: string; readonly line: number }[] {
  const text = textOf(path)
  const comments: { text: string; line: number }[] = []
  const tree = treeOf(path)
  const starts = new Set<number>()
  for (const node of nodesBelow(tree)) {
    for (const range of [
      ...(ts.getLeadingCommentRanges(text, node.getFullStart()) ?? []),
      ...(ts.getTrailingCommentRanges(text, node.getEnd()) ?? []),
    ]) {
      if (starts.has(range.pos)) continue
      starts.add(range.pos)
      const line = tree.getLineAndCharacterOfPosition(range.pos).line + 1
      comments.push({ text: text.slice(range.pos, range.end), line })
    }
  }
  return comments.sort((a, b) => a.line - b.line)
}
