import { type Html, html, section } from "./html.ts"

/** What stands with every number that could send someone to live shooting. */
const CAUTIONS: readonly string[] = [
  "Local rules, the rules of the facility and licensed practice come first; nothing here replaces them",
  "Full gear and a certified mask for the goalie, always; a netted end and nobody behind it; supervised throughout",
  "One puck at a time; the goalie is ready and looking before each shot; from slow to fast",
  "Speed and height to the goalie's level; state the closest distance beforehand and keep it",
  "Play the rebound, then stop; rest when form goes",
  "Count butterflies and stops: 69 % [59, 79] of elite goalies had hip or groin trouble in a season, mostly overuse (Wörner et al. 2019)",
  "No full-time goalie before 12 or 13 (USA Hockey)",
]

/** The cautions for trying a result on the ice. */
export function cautionsSection(): Html {
  const items = CAUTIONS.map((caution) => html`<li>${caution}.</li>\n`)
  const opening = "These numbers come from a model. Before anyone shoots at a goalie because of them:"
  return section("Before you try it on the ice", [html`<p>${opening}</p>\n<ul>\n${items}</ul>\n`])
}
