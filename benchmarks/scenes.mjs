import { compileScene } from "../dist/models/plays/scene.js"
import { defaultSettings, withSettings } from "../dist/models/settings.js"

/** Key of every measurement: the same shots each time. */
export const KEY = [20_261, 77]
export const BATCH = 256

/** Settings of goalies who differ in their depth alone, for shots from straight ahead. */
export function depthSettings(depths, distance = 8) {
  const base = defaultSettings()
  return depths.map((depth) => withSettings(base, { quantities: { "goalie.depth": depth, "play.distance": distance } }))
}

/** `count` depths, equal steps apart. */
export function depths(count, from = 0.2, to = 2.2) {
  return Array.from({ length: count }, (_, i) => (count === 1 ? 1.2 : from + ((to - from) * i) / (count - 1)))
}

export function depthScene(count, distance = 8) {
  return compileScene(depthSettings(depths(count), distance))
}

/** The same depths against a one-timer from 8 m straight ahead after a pass across the ice. */
export function passScene(count) {
  const choices = { "play.kind": "cross-ice pass", "shooter.shot": "one-timer" }
  return compileScene(depthSettings(depths(count)).map((settings) => withSettings(settings, { choices })))
}

/** Plays whose speed is measured, each by its number of goalies. */
export const PLAYS = { "straight shot": depthScene, "cross-ice pass": passScene }
