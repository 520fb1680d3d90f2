/** Lines of a page on which a figure is missing: one that was not measured shows as what JavaScript calls it. */
export function unfilledOf(page) {
  return page.split("\n").filter((line) => /\b(NaN|undefined|null|Infinity)\b|\[object/.test(line))
}
