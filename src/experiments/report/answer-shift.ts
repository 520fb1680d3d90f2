import type { Estimate } from "../../sim/estimate.ts"
import type { AssumptionRange, RunResults, Shift } from "../results.ts"
import type { SweptQuantity } from "./answer-best.ts"
import { type Detail, fitted, isTold } from "./finding.ts"
import { inFileUnit, keyName, namedValue, plain, spreadsText, withUnit } from "./words.ts"

/** What a trait of the goalie changes: the save rate at the best place, and that place; null where none is swept. */
export function shiftHeadline(results: RunResults): string | null {
  const shift = results.shifts?.length === 1 ? results.shifts[0]! : null
  if (shift === null) return null
  const quantity = (key: string): SweptQuantity | undefined =>
    results.experiment.sweep.find((swept): swept is SweptQuantity => swept.key === key && swept.kind === "quantity")
  const [trait, axis] = [quantity(shift.key), quantity(shift.along)]
  if (trait === undefined || axis === undefined) return null
  return fitted((detail) => sentence(shift, trait, axis, detail))
}

function sentence(shift: Shift, trait: SweptQuantity, axis: SweptQuantity, detail: Detail): string {
  const [small, large] = [namedValue(trait, shift.from), namedValue(trait, shift.to)]
  const points = (value: number): string => plain(value * 100, 1)
  const gained = shift.rate.mean >= 0
  const rate = turned(shift.rate, shift.rateAssumptions, gained ? 1 : -1, points, detail)
  const opening = `Each at the best ${keyName(axis.key)}, ${gained ? large : small} saves ${rate.number} points more than ${gained ? small : large}${rate.spreads}`
  const place = (value: number): string => plain(inFileUnit(axis, value) - inFileUnit(axis, 0), 2)
  const unit = (text: string): string => withUnit(text, axis.unit)
  const further = axis.key === ("goalie.depth" as string) ? "further out" : "higher"
  if (!isTold(shift.best)) {
    const move = turned(shift.best, shift.bestAssumptions, -1, place, detail)
    return `${opening}; the best ${keyName(axis.key)} is not told apart: ${unit(move.number)} ${further} for ${small}${move.spreads}`
  }
  const smallFurther = shift.best.mean < 0
  const move = turned(shift.best, shift.bestAssumptions, smallFurther ? -1 : 1, place, detail)
  const [who, other] = smallFurther ? [small, large] : [large, small]
  return `${opening}; ${who} is best ${unit(move.number)} ${further} than ${other}${move.spreads}`
}

/** A number and its spreads, turned over where the sentence speaks of the other side. */
function turned(
  estimate: Estimate,
  assumptions: AssumptionRange | null,
  sign: 1 | -1,
  number: (value: number) => string,
  detail: Detail,
): { readonly number: string; readonly spreads: string } {
  const ends = <Ends extends { readonly low: number; readonly high: number }>(range: Ends): Ends =>
    sign === 1 ? range : { ...range, low: -range.high, high: -range.low }
  const shown = detail === "both" && assumptions !== null ? ends(assumptions) : null
  const spreads = detail === "none" ? "" : ` ${spreadsText(ends(estimate), shown, number)}`
  return { number: number(sign * estimate.mean), spreads }
}
