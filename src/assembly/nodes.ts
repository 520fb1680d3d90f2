import { HAND, HAND_LANDED, HAND_LAST, HAND_NODES } from "../sim/compiled/layout.ts"
import { clearanceMoving, gapAt } from "./clearance.ts"
import { phasesInHand } from "./tables.ts"

/** Nodes of the drop of the part in hand: its key phases up to the last phase at which it stops, that one among them. */
// @ts-ignore: decorator
@inline
export function nodeCount(): i32 {
  return load<i32>(HAND + HAND_NODES)
}

/** The last of them, in key phases. */
// @ts-ignore: decorator
@inline
export function lastNode(): f64 {
  return load<f64>(HAND + HAND_LAST)
}

/** Lets the drop stop at a share of its way. */
export function setNodes(lastPhase: f64): void {
  const last = lastPhase * <f64>(phasesInHand() - 1)
  store<f64>(HAND + HAND_LAST, last)
  store<i32>(HAND + HAND_NODES, last > 1 ? <i32>ceil(last - 1e-9) + 1 : 2)
  store<f64>(HAND + HAND_LANDED, NaN)
}

/** Clearance at node j: of the body on its way down, or come to rest at the last. */
export function nodeGap(part: usize, met: usize, j: i32): f64 {
  const last = lastNode()
  if (j < nodeCount() - 1 || last == <f64>(phasesInHand() - 1)) return gapAt(part, met, j)
  let landed = load<f64>(HAND + HAND_LANDED)
  if (isNaN(landed)) {
    landed = clearanceMoving(part, met, last, 0)
    store<f64>(HAND + HAND_LANDED, landed)
  }
  return landed
}
