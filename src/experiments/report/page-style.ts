import { COLOURS, FONT_STACK } from "../charts/look.ts"

/** The report's style, on screen and on paper, from the colours of the charts. */
export const PAGE_STYLE = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { margin: 0; background: ${COLOURS.ice}; color: ${COLOURS.ink}; font: 17px/1.5 ${FONT_STACK}; }
main { max-width: 940px; margin: 0 auto; padding: 40px 20px 80px; }
h1 { font-size: 32px; line-height: 1.2; margin: 0 0 8px; letter-spacing: -0.01em; }
h2 { font-size: 22px; margin: 48px 0 12px; padding-top: 14px; border-top: 3px solid ${COLOURS.ink}; }
h3 { font-size: 18px; margin: 24px 0 6px; }
p, li { max-width: 72ch; }
.why, .quiet, figcaption { color: ${COLOURS.quietInk}; }
.answer { background: ${COLOURS.snow}; border-left: 8px solid ${COLOURS.best}; padding: 18px 22px; margin: 26px 0; }
.answer .headline { font-size: 23px; line-height: 1.35; font-weight: 650; margin: 0; max-width: none; }
.answer ul { margin: 14px 0 0; padding-left: 20px; }
.warning { background: ${COLOURS.warningPaper}; border-left: 8px solid ${COLOURS.warning}; padding: 10px 18px; margin: 10px 0; }
.warning strong { color: ${COLOURS.warning}; }
figure { margin: 26px 0; }
figure svg { display: block; width: 100%; height: auto; overflow: visible; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: 15px; font-variant-numeric: tabular-nums; background: ${COLOURS.snow}; }
th, td { text-align: left; vertical-align: top; padding: 5px 14px 5px 8px; border-bottom: 1px solid ${COLOURS.line}; }
thead th { border-bottom: 2px solid ${COLOURS.ink}; }
tbody th { font-weight: 600; }
tr.set { background: ${COLOURS.plateau}; }
dt { font-weight: 650; margin-top: 10px; }
dd { margin: 0; max-width: 72ch; }
code { font-size: 0.95em; }
summary { cursor: pointer; font-weight: 600; padding: 6px 0; }
.wide table { min-width: 60%; }
@page { margin: 16mm; }
@media print {
  body { background: white; font-size: 10.5pt; }
  main { max-width: none; padding: 0; }
  h1 { font-size: 20pt; } h2 { font-size: 14pt; break-after: avoid; } h3 { break-after: avoid; }
  figure, .answer, .warning, tr { break-inside: avoid; }
  .wide { overflow: visible; }
  details::details-content { content-visibility: visible; block-size: auto; }
  summary { list-style: none; }
  table { font-size: 8.5pt; }
}
`
