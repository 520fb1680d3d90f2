import type { Settings } from "../settings.ts"

/** Side a play comes from as the sign of y: 1 the goalie's left, -1 the right. */
export function fromSide({ choices }: Settings): 1 | -1 {
  return choices["play.from_side"] === "left" ? 1 : -1
}
