import type { Quantity } from "../parameter.ts"

/** Levels of shooter, best first. */
export const LEVEL_NAMES = ["professional", "women's", "junior", "under-15", "under-11"] as const
export type Level = (typeof LEVEL_NAMES)[number]

/** How a level differs from the professional one: three factors. */
export interface LevelRecord {
  readonly speedFactor: Quantity
  readonly errorFactor: Quantity
  readonly readFactor: Quantity
}

/** value, low, high, why */
type Row = readonly [number, number, number, string]

function factor([value, low, high, why]: Row): Quantity {
  return { dimension: "number", unit: "", value, low, high, least: 0.1, most: 5, source: "assumption", why }
}

function level(speed: Row, error: Row, read: Row): LevelRecord {
  return { speedFactor: factor(speed), errorFactor: factor(error), readFactor: factor(read) }
}

const STATED: Row = [1, 1, 1, "The level that speeds, errors and reads are stated for"]

/** Every level with its factors. No measured speed of women or children was found: their factors are from memory. */
export const LEVELS: Readonly<Record<Level, LevelRecord>> = {
  professional: level(STATED, STATED, STATED),
  "women's": level(
    [0.8, 0.7, 0.9, "From memory, on the elite men's speed"],
    [1.05, 0.95, 1.2, "Little behind the professional level"],
    [1, 0.9, 1.1, "As the professional level"],
  ),
  junior: level(
    [0.9, 0.83, 0.96, "Between professional and under-15, from memory"],
    [1.05, 1, 1.2, "Little behind the professional level"],
    [1, 0.9, 1.15, "As the professional level"],
  ),
  "under-15": level(
    [0.7, 0.6, 0.8, "From memory, on the elite men's speed"],
    [1.2, 1.05, 1.4, "With junior, an even mix that hits corners from 4 m about as a group of novice to varsity did"],
    [1.2, 1, 1.4, "The release shows more"],
  ),
  "under-11": level(
    [0.5, 0.4, 0.6, "From memory, on the elite men's speed"],
    [1.5, 1.2, 2, "Strength and technique still to come"],
    [1.4, 1.1, 1.7, "The release shows more"],
  ),
}

/** The record of a level by its name. */
export function levelOf(name: string): LevelRecord {
  return LEVELS[name as Level]
}
