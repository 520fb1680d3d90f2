/** Text that is already HTML; everything else is escaped where it is put in. */
export interface Html {
  readonly html: string
}

type Part = string | number | Html | readonly Html[]

/** Escapes text for HTML, in elements and in quoted attributes. */
export function escapeHtml(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;")
}

/** Builds HTML from a template; texts and numbers put in are escaped, {@link Html} is not. */
export function html(texts: TemplateStringsArray, ...parts: readonly Part[]): Html {
  const pieces = texts.map((text, at) => text + (at < parts.length ? inserted(parts[at]!) : ""))
  return { html: pieces.join("") }
}

/** Marks text made by the program itself, such as a drawn chart, as HTML. */
export function trusted(text: string): Html {
  return { html: text }
}

export const NOTHING: Html = { html: "" }

/** A table with a header row; the first column names the row. */
export function tableHtml(header: readonly string[], rows: readonly (readonly Part[])[]): Html {
  const head = header.map((name) => html`<th scope="col">${name}</th>`)
  const body = rows.map((row) => {
    const cells = row.map((part, at) => (at === 0 ? html`<th scope="row">${part}</th>` : html`<td>${part}</td>`))
    return html`<tr>${cells}</tr>\n`
  })
  return html`<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>\n${body}</tbody></table></div>\n`
}

/** A section with its heading; nothing when it has no content. */
export function section(title: string, content: Html | readonly Html[]): Html {
  const inner = html`${content}`
  return inner.html.trim() === "" ? NOTHING : html`<section>\n<h2>${title}</h2>\n${inner}</section>\n`
}

/** Content that is folded away behind a line until it is asked for; on paper it is open. */
export function folded(summary: string, content: Html | readonly Html[]): Html {
  return html`<details>\n<summary>${summary}</summary>\n${content}</details>\n`
}

function inserted(part: Part): string {
  if (typeof part === "string") return escapeHtml(part)
  if (typeof part === "number") return String(part)
  return isList(part) ? part.map((one) => one.html).join("") : part.html
}

function isList(part: Html | readonly Html[]): part is readonly Html[] {
  return Array.isArray(part)
}
