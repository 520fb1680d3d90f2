import { compileScene } from "../../dist/models/plays/scene.js"
import { defaultSettings, withSettings } from "../../dist/models/settings.js"

/** Default settings with some changed. */
export function playing(quantities, choices = {}) {
  return withSettings(defaultSettings(), { quantities, choices })
}

/** The two questions whose one rate is measured: one goalie each, everything else by default. */
export const RATES = {
  "straight shot from 6 m": () => compileScene([playing({ "play.distance": 6 })]),
  "cross-ice pass": () => compileScene([playing({}, { "play.kind": "cross-ice pass" })]),
}

export const PAIR_DEPTHS = [0.5, 1, 1.2, 1.5, 2]
export const PAIRS = [
  [1, 1.2],
  [1, 1.5],
  [0.5, 1.5],
  [1, 2],
]

/** Goalies at the depths of the pairs, before a shooter who reads them (1) or is blind (0). */
export function depthsScene(distance, reading) {
  const of = (depth) => playing({ "play.distance": distance, "goalie.depth": depth, "shooter.reading": reading })
  return compileScene(PAIR_DEPTHS.map(of))
}
