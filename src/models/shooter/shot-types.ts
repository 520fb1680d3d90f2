import type { Dimension, Quantity } from "../parameter.ts"

/** Shot types in the order of the stratum column SHOT_TYPE; the first is the usual mix at a distance. */
export const SHOT_NAMES = ["by distance", "wrist", "snap", "slap", "backhand", "one-timer", "tip"] as const
export type ShotName = (typeof SHOT_NAMES)[number]
/** A type with a speed of its own. */
export type ShotType = Exclude<ShotName, "by distance">

/** What makes one shot type different. Speeds are those of a professional shooter. */
export interface ShotTypeRecord {
  readonly speed: Quantity
  readonly speedSd: Quantity
  /** Multiplies shooter.early_read. */
  readonly readFactor: Quantity
  /** From the first visible movement of the stick to the release. */
  readonly releaseTime: Quantity
  /** Multiplies shooter.aim_error. */
  readonly errorFactor: Quantity
}

/** value, low, high, why, source */
type Row = readonly [number, number, number, string, string?]

function record(dimension: Dimension, unit: string, most: number, row: Row): Quantity {
  const [value, low, high, why, source = "assumption"] = row
  return { dimension, unit, value, low, high, least: 0, most, source, why }
}

function shotType(speed: Row, sd: Row, read: Row, release: Row, error: Row): ShotTypeRecord {
  return {
    speed: record("speed", "m/s", 55, speed),
    speedSd: record("speed", "m/s", 15, sd),
    readFactor: record("number", "", 5, read),
    releaseTime: record("time", "ms", 1.5, release),
    errorFactor: record("number", "", 5, error),
  }
}

/** Every shot type with its numbers and where they are from. */
export const SHOT_TYPES: Readonly<Record<ShotType, ShotTypeRecord>> = {
  wrist: shotType(
    [26.5, 23, 30, "Best camp reading 33.1 m/s, times the slap shot's mean over its best, 0.8", "CampRadar2008"],
    [3, 2, 4.5, "About the relative spread of the slap shot"],
    [1, 0.7, 1.3, "The release that the early read is stated for"],
    [0.2, 0.12, 0.35, "Sweep of the puck, from memory"],
    [0.9, 0.75, 1, "More accurate than the slap shot in a test of 30 men; the factor is assumed", "Alexander1963"],
  ),
  snap: shotType(
    [26, 23, 30, "Within 1 to 2 mph of the wrist shot at one camp", "CampRadar2008"],
    [3, 2, 4.5, "About the relative spread of the slap shot"],
    [0.8, 0.5, 1.1, "Less of a sweep to read"],
    [0.12, 0.08, 0.2, "Quicker than the wrist shot, from memory"],
    [0.95, 0.8, 1.1, "Between wrist shot and slap shot"],
  ),
  slap: shotType(
    [31, 29.1, 37.8, "Mean of 29.1 m/s (5 elite men) and 33.3 m/s (4 elite men) by number", "Villasenor2006"],
    [3.9, 1.4, 5, "Pooled over the same two groups, 1.4 and 5.0 m/s", "Villasenor2006"],
    [1.5, 1.2, 2, "The back swing announces it"],
    [0.45, 0.3, 0.7, "Back swing and down swing, from memory"],
    [1.2, 1, 1.5, "Standing slap shot least accurate of those tested; the factor is assumed", "Alexander1963"],
  ),
  backhand: shotType(
    [18, 15, 21.9, "Best of one camp 21.9 m/s, times 0.8", "CampRadar2008"],
    [2.5, 1.5, 4, "About the relative spread of the slap shot"],
    [0.9, 0.6, 1.2, "Short sweep, blade hidden behind the puck"],
    [0.2, 0.12, 0.35, "As the wrist shot, from memory"],
    [1.3, 1.1, 1.7, "Less practised than the forehand"],
  ),
  "one-timer": shotType(
    [29, 26, 34, "A slap shot with a shorter swing"],
    [4, 2.5, 5.5, "Meeting a moving puck spreads the speed more than a standing slap shot"],
    [0.6, 0.3, 0.9, "The goalie is still turning to the shooter"],
    [0.25, 0.15, 0.4, "The swing starts while the pass is on its way, from memory"],
    [1.1, 1, 1.4, "Before the factor of a moving puck"],
  ),
  tip: shotType(
    [18, 12, 24, "A shot slowed by the blade that turns it"],
    [4, 2, 6, "Depends on the shot that is tipped"],
    [0, 0, 0.2, "A change of direction at the blade cannot be read"],
    [0, 0, 0.05, "There is no swing"],
    [2.5, 1.8, 4, "The blade only gets in the way"],
  ),
}

/** The record of a type by its name, or undefined for "by distance". */
export function shotTypeOf(name: string): ShotTypeRecord | undefined {
  return name === "by distance" ? undefined : SHOT_TYPES[name as ShotType]
}
