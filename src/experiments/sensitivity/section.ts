import { QUANTITIES } from "../../models/settings.ts"
import { quantityText } from "../report/catalogue.ts"
import { type Html, html, section, tableHtml } from "../report/html.ts"
import { capital, plain } from "../report/words.ts"
import type { QuantityEffect, SensitivityFinding } from "./finding.ts"
import { trainableOf } from "./training.ts"
import { behindText, effectText, measureName, quantityName, savedText } from "./words.ts"

/** What the measure hangs on: every quantity with both effects, and what a tenth better saves. */
export function sensitivitySection(finding: SensitivityFinding | undefined): Html {
  if (finding === undefined) return html``
  const hasGains = finding.effects.some(({ gain }) => gain !== null)
  const header = ["Quantity", "Varied over", "Total effect", "Alone", "Behind the first"]
  if (hasGains) header.push("10 % better", "Goals saved in 100 shots", "Trained by")
  const rows = finding.effects.map((effect) => [
    html`${capital(quantityName(effect.key))} <code>${effect.key}</code>`,
    `${quantityText(QUANTITIES[effect.key], effect.low)} to ${quantityText(QUANTITIES[effect.key], effect.high)}`,
    effectText(effect.total),
    effectText(effect.first),
    behindCell(effect),
    ...(hasGains ? gainCells(effect) : []),
  ])
  const title = finding.over === "training" ? "What training is worth most" : "What the result hangs on most"
  return section(title, [html`<p>${methodText(finding)}</p>\n`, tableHtml(header, rows)])
}

function behindCell({ behind }: QuantityEffect): string {
  if (behind === null) return "the first"
  return behind.low <= 0 ? `${behindText(behind)}, cannot be told apart` : behindText(behind)
}

function gainCells({ key, gain }: QuantityEffect): string[] {
  if (gain === null) return ["", "", ""]
  const quantity = QUANTITIES[key]
  const step = `${quantityText(quantity, gain.from)} to ${quantityText(quantity, gain.to)}`
  const told = gain.change.low > 0 || gain.change.high < 0 ? "" : ", cannot be told from nothing"
  return [step, `${savedText(gain.change)}${told}`, trainableOf(key)?.reason ?? ""]
}

/** What was done, so that it can be done again. */
function methodText({ of, sets, values, shots, gainShots, effects }: SensitivityFinding): string {
  const whole = (n: number): string => n.toLocaleString("en-US")
  const gains =
    gainShots === 0
      ? ""
      : ` For 10 % better each quantity alone is a tenth better than the goalie's own, on ${whole(gainShots)} shots that are the same before and after.`
  return (
    `All ${effects.length} quantities are varied at once over their ranges, since one at a time would miss what they do together (Saltelli and Annoni 2010). ` +
    `The total effect is the share of the variance of the ${measureName(of)} that would be left if all others were known; alone is the part a quantity has without the others. ` +
    `Both from ${whole(values)} values (two sets of ${whole(sets)} scrambled Sobol' points and their exchanges; estimators of Jansen 1999 and Saltelli et al. 2010) of ${whole(shots)} shots each, the same shots for all: ${plain((values * shots) / 1e6, 1)} million shots. ` +
    `Intervals: bootstrap over points and replicates together, held between 0 and 100 %, as a share can be no other.${gains} A wide range has a large effect: effects tell goalies apart, gains tell what the next step brings; no source says which step practice reaches sooner.`
  )
}
