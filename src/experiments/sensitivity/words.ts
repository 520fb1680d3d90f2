import type { Estimate } from "../../sim/estimate.ts"
import { measureOf } from "../measures.ts"
import { joinAnd } from "../replay/words.ts"
import { capital, keyName, percent, plain, signed } from "../report/words.ts"
import type { QuantityEffect, SensitivityFinding } from "./finding.ts"
import { trainableOf } from "./training.ts"

/** More names than this are counted, not read out. */
const MOST_NAMES = 3
const MOST_IDLE = 6
/** A total effect below this is no effect to speak of. */
const IDLE = 0.01
/** Total over first-order effect by this much: the quantity works with others. */
const TOGETHER = 0.05

/** What a quantity is called: the coach's word for what is trained, the key read aloud for the rest. */
export function quantityName(key: string): string {
  return trainableOf(key)?.name ?? keyName(key)
}

/** The name of the measure inside a sentence. */
export function measureName(of: string): string {
  return (measureOf(of)?.title ?? of).toLowerCase()
}

/** What a share can be: an estimator of one may go past nothing or the whole, which is sampling error. */
export function ofTheWhole({ mean, low, high }: Estimate): Pick<Estimate, "mean" | "low" | "high"> {
  const held = (value: number): number => Math.min(1, Math.max(0, value))
  return { mean: held(mean), low: held(low), high: held(high) }
}

/** A share of the variance with its interval, held within the whole: "26 % [16, 38]". */
export function effectText(effect: Estimate): string {
  return shareText(ofTheWhole(effect))
}

/** How far one share of the variance is behind another: "4 % [−1, 9]". */
export function behindText({ mean, low, high }: Estimate): string {
  return shareText({ mean, low, high: Math.min(1, high) })
}

function shareText({ mean, low, high }: Pick<Estimate, "mean" | "low" | "high">): string {
  if (!Number.isFinite(mean)) return "not known"
  const digits = Math.abs(mean) < 0.095 ? 1 : 0
  return `${percent(mean, digits)} [${plain(low * 100, digits)}, ${plain(high * 100, digits)}]`
}

/** Goals saved in 100 shots on goal with their interval: "+1.04 [1.00, 1.08]". */
export function savedText({ mean, low, high }: Estimate): string {
  return `${signed(mean * 100, 2)} [${plain(low * 100, 2)}, ${plain(high * 100, 2)}]`
}

/** The answer in one sentence: what is worth most, what cannot be told from it, what a tenth better saves. */
export function sensitivityHeadline(finding: SensitivityFinding): string {
  const [first] = finding.effects
  if (first === undefined || !Number.isFinite(first.total.mean)) {
    return `Nothing that was varied changes the ${measureName(finding.of)} here, so nothing can be ranked`
  }
  const openings = { training: "Of what can be trained", assumptions: "Of what is assumed", listed: "Of these" }
  const most = finding.over === "training" ? "is worth most" : "matters most"
  const share = `it decides ${effectText(first.total)} of the spread in ${measureName(finding.of)}`
  return `${openings[finding.over]}, ${quantityName(first.key)} ${most}: ${share}${tiesText(finding.effects)}${gainText(finding)}`
}

/** Those whose total effect may be as large as the first one's. */
function tiesText(effects: readonly QuantityEffect[]): string {
  const ties = effects.filter(({ behind }) => behind !== null && behind.low <= 0).map(({ key }) => quantityName(key))
  if (ties.length === 0) return ""
  return `; ${namesText(ties, MOST_NAMES)} cannot be told apart from it`
}

function gainText({ effects }: SensitivityFinding): string {
  const best = effects.find(({ gain }) => gain !== null && gain.behind === null)
  if (best?.gain === undefined || best.gain === null || !(best.gain.change.low > 0)) return ""
  const who = best === effects[0] ? "it" : quantityName(best.key)
  return `; for 10 % better ${who} gains most, ${savedText(best.gain.change)} goals saved in 100 shots`
}

/** What stands below the headline. */
export function sensitivityNotes(finding: SensitivityFinding): string[] {
  const { effects, mean, deviation } = finding
  if (!Number.isFinite(effects[0]?.total.mean)) return []
  const idle = effects.filter(({ total }) => total.high < IDLE).map(({ key }) => quantityName(key))
  const together = effects
    .filter(({ first, total }) => total.low - first.high > TOGETHER)
    .map(({ key }) => quantityName(key))
  const notes = [
    `Over all ranges at once the ${measureName(finding.of)} is ${percent(mean)} on average, with a standard deviation of ${plain(deviation * 100, 1)} points`,
  ]
  const order = practiceOrder(effects)
  if (order !== "") notes.push(order)
  if (together.length > 0)
    notes.push(capital(`${joinAnd(together)} ${verb(together, "works", "work")} mostly together with others`))
  if (idle.length > 0) {
    const each = idle.length === 1 ? "decides" : "each decide"
    notes.push(capital(`${namesText(idle, MOST_IDLE)} ${each} less than 1 % here`))
  }
  return notes
}

/** What to practise first: gains that can be told from nothing, the largest first. */
function practiceOrder(effects: readonly QuantityEffect[]): string {
  const gains = effects.flatMap(({ key, gain }) => (gain === null ? [] : [{ key, change: gain.change }]))
  const told = gains.filter(({ change }) => change.low > 0).sort((a, b) => b.change.mean - a.change.mean)
  if (told.length === 0) return ""
  const list = told.map(({ key, change }) => `${quantityName(key)} ${savedText(change)}`).join(", ")
  return `What to practise first, goals saved in 100 shots on goal for 10 % better: ${list}`
}

function namesText(names: readonly string[], most: number): string {
  if (names.length <= most) return joinAnd(names)
  return `${names.slice(0, most - 1).join(", ")} and ${names.length - most + 1} more`
}

function verb(subjects: readonly string[], one: string, several: string): string {
  return subjects.length === 1 ? one : several
}
