import { textWidth } from "../../../src/experiments/charts/text-width.ts"

/** Where one text of an SVG stands, px of the page. */
export interface TextBox {
  readonly text: string
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** Height over the baseline and under it, shares of the size: capitals and digits, and tails. */
const ASCENT = 0.73
const DESCENT = 0.2

/** Boxes of all texts that show, walked through the groups they stand in; a text and its halo are one. */
export function textBoxes(svg: string): TextBox[] {
  const boxes: TextBox[] = []
  const shifts: [number, number][] = [[0, 0]]
  const seen = new Set<string>()
  for (const [, closes, tag, attributes, inner] of svg.matchAll(
    /<(\/?)(g|svg|text)\b([^>]*)>(?:(?<=<text\b[^>]*>)(.*?)<\/text>)?/gs,
  )) {
    const [x, y] = shifts.at(-1)!
    const [dx, dy] = shiftOf(attributes!)
    if (closes === "/") shifts.pop()
    else if (tag !== "text" && !attributes!.endsWith("/")) shifts.push([x + dx, y + dy])
    else if (tag !== "text") continue
    else {
      const lines = [...inner!.matchAll(/<tspan([^>]*)>(.*?)<\/tspan>/gs)]
      const size = Number(/font-size="([\d.]+)px"/.exec(attributes!)?.[1] ?? 11)
      const each = lines.length === 0 ? [["", "", inner!]] : lines
      each.forEach(([, own, words], at) => {
        const drop = Number(/dy="([-\d.]+)"/.exec(own ?? "")?.[1] ?? 0) * at
        const box = boxOf(plainText(words!), attributes!, size, x + dx, y + dy + drop)
        const id = JSON.stringify(box)
        if (box.text !== "" && !seen.has(id)) boxes.push(box)
        seen.add(id)
      })
    }
  }
  return boxes
}

/** Texts that touch each other, in pairs. */
export function overlaps(boxes: readonly TextBox[]): string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter(
        (b) => a.left < b.right - 0.5 && b.left < a.right - 0.5 && a.top < b.bottom - 0.5 && b.top < a.bottom - 0.5,
      )
      .map((b) => `${a.text} | ${b.text}`),
  )
}

/** Texts that leave the page, and texts that were cut. */
export function lost(svg: string, boxes: readonly TextBox[]): string[] {
  const [width, height] = ["width", "height"].map((name) =>
    Number(new RegExp(`<svg[^>]* ${name}="([\\d.]+)"`).exec(svg)![1]),
  )
  return boxes
    .filter(
      ({ text, left, right, top, bottom }) =>
        left < -0.5 || top < -0.5 || right > width! + 0.5 || bottom > height! + 0.5 || text.endsWith("…"),
    )
    .map(({ text }) => text)
}

function shiftOf(attributes: string): [number, number] {
  const found = /translate\(([-\d.e]+)[, ]([-\d.e]+)\)/.exec(attributes)
  return found === null ? [0, 0] : [Number(found[1]), Number(found[2])]
}

function boxOf(text: string, attributes: string, size: number, x: number, y: number): TextBox {
  const bold = /font-weight="(bold|[6-9]00)"/.test(attributes)
  const width = textWidth(text, size, bold)
  const anchor = /text-anchor="(\w+)"/.exec(attributes)?.[1] ?? "start"
  const before = anchor === "end" ? width : anchor === "middle" ? width / 2 : 0
  const turned = Number(/rotate\(([-\d.]+)\)/.exec(attributes)?.[1] ?? 0)
  if (turned === -90)
    return { text, left: x - ASCENT * size, right: x + DESCENT * size, top: y - (width - before), bottom: y + before }
  return { text, left: x - before, right: x - before + width, top: y - ASCENT * size, bottom: y + DESCENT * size }
}

function plainText(inner: string): string {
  return inner
    .replaceAll(/<[^>]+>/g, "")
    .replaceAll("&amp;", "&")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .trim()
}
