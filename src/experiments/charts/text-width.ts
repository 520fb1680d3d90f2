/**
 * Advance widths of the shipped font (Inter Regular), thousandths of the font size, for the characters from space (32)
 * to tilde (126), read from the font's own tables. With them a text is as wide on a machine without any fonts.
 */
const ADVANCES = [
  281, 288, 466, 633, 642, 982, 644, 300, 365, 365, 501, 662, 288, 460, 288, 360, 631, 407, 610, 618, 646, 593, 620,
  566, 619, 620, 288, 302, 662, 662, 662, 511, 966, 690, 654, 730, 722, 601, 590, 746, 743, 269, 571, 672, 565, 903,
  753, 765, 639, 765, 644, 642, 646, 744, 690, 985, 682, 679, 629, 365, 360, 365, 471, 456, 323, 562, 612, 571, 612,
  583, 370, 613, 591, 242, 242, 549, 242, 876, 591, 600, 612, 612, 376, 528, 327, 591, 562, 818, 546, 562, 552, 426,
  333, 426, 662,
] as const
/** Any other character, minus sign and accented letters among them. */
const OTHER = 662
/** Bold over regular, mean over the same characters. */
const BOLD = 1.044

/** Width of a text in the shipped font, px. */
export function textWidth(text: string, size: number, bold = false): number {
  let width = 0
  for (const character of text) width += ADVANCES[character.codePointAt(0)! - 32] ?? OTHER
  return ((width * size) / 1000) * (bold ? BOLD : 1)
}

/** Breaks a text at spaces so that no line is wider than `width` px; a single long word stays whole. */
export function wrapText(text: string, size: number, width: number, bold = false): string[] {
  const lines: string[] = []
  let line = ""
  for (const word of text.split(/\s+/).filter((part) => part !== "")) {
    const longer = line === "" ? word : `${line} ${word}`
    if (line !== "" && textWidth(longer, size, bold) > width) {
      lines.push(line)
      line = word
    } else line = longer
  }
  return line === "" ? lines : [...lines, line]
}

/** Moves label heights (px) apart to at least `gap`, in their order, between `least` and `most` where they fit. */
export function spreadLabels(heights: readonly number[], gap: number, least: number, most: number): number[] {
  const order = heights.map((_, at) => at).sort((a, b) => heights[a]! - heights[b]! || a - b)
  const placed = [...heights]
  // push down from the top, then back up from the bottom
  let floor = least
  for (const at of order) {
    placed[at] = Math.max(placed[at]!, floor)
    floor = placed[at]! + gap
  }
  let ceiling = most
  for (const at of order.toReversed()) {
    placed[at] = Math.min(placed[at]!, ceiling)
    ceiling = placed[at]! - gap
  }
  return placed
}
