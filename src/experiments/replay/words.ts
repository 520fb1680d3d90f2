import type { Limb } from "../../sim/parts.ts"
import { plain } from "../report/words.ts"

/** A time from the release, or a span of time: "-14 ms", "0.4 ms". */
export function ms(time: number): string {
  return `${plain(time, Math.abs(time) < 9.95 && !Number.isInteger(time) ? 1 : 0)} ms`
}

/** A span of time that may be long: "24 ms", "1.6 s". */
export function span(time: number): string {
  return Math.abs(time) < 1000 ? ms(time) : `${plain(time / 1000, 1)} s`
}

/** A part with its verb: "the mask stops", "the pants stop". */
export function partDoes(part: string, one: string, many: string): string {
  return `the ${part} ${part.endsWith("s") ? many : one}`
}

/** A length of a body's order: "4.2 cm", "31 cm", "less than 1 mm". */
export function cm(length: number): string {
  if (Math.abs(length) < 0.05) return "less than 1 mm"
  return `${plain(length, Math.abs(length) < 9.95 ? 1 : 0)} cm`
}

/** Feet and inches: "26 ft 3 in". */
export function feetAndInches(feet: number): string {
  const inches = Math.round(feet * 12)
  return `${Math.floor(inches / 12)} ft ${inches % 12} in`
}

/** Which side of a goalie facing out: positive is left. */
export function side(value: number): "left" | "right" {
  return value >= 0 ? "left" : "right"
}

/** A place on the goal plane: "41 cm right of the middle, 88 cm up". */
export function placeText(yCm: number, heightCm: number): string {
  const across = Math.abs(yCm) < 0.5 ? "in the middle" : `${plain(Math.abs(yCm), 0)} cm ${side(yCm)} of the middle`
  return `${across}, ${heightCm < 2.5 ? "along the ice" : `${plain(heightCm, 0)} cm up`}`
}

/** What a limb does to its part. */
export function carriedText(limb: Limb | null): string {
  if (limb === null) return "covering"
  return limb === "trunk" ? "leaning into it" : limb.endsWith("leg") ? "kicked out" : "reaching"
}

/** `a, b and c`. */
export function joinAnd(words: readonly string[]): string {
  if (words.length < 2) return words.join("")
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`
}
