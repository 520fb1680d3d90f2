import type { Leg } from "../../sim/play/course.ts"
import type { Metres, MetresPerSecond, Probability, Seconds } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"

/** A place on the ice, rink frame. */
export interface Spot {
  readonly x: Metres
  readonly y: Metres
}

/** One of several places along a straight way in, of which the first that keeps off the goalie is taken. */
export interface Rung {
  /** Where the way starts; it ends `nearest` to the centre of the goal line. */
  readonly start: Spot
  readonly nearest: Metres
  /** This place is the `at`-th of `of`, each `step` farther out than the one before. */
  readonly step: Metres
  readonly at: number
  readonly of: number
}

/** One way a play can go: what the puck does, and the shot it ends in. */
export interface PlayBranch {
  /** Names the branch in results. */
  readonly name: string
  /** How often it is played by a carrier who does not look; over the branches these sum to 1. */
  readonly share: Probability
  /** Which of several places it is played from, where that hangs on where the goalie is; `share` is that of all of them. */
  readonly rung?: Rung
  /** Where the puck is when the play starts. */
  readonly start: Spot
  readonly legs: readonly Leg[]
  /** How often no shot comes of it: its pass is lost, or where it has none the shot is blocked. */
  readonly lost: Probability
  /** The play's settings with what this branch changes: where the shot is taken, and how. */
  readonly settings: Settings
}

/** A place given by its distance and angle from the centre of the goal line. */
export function polar(distance: Metres, angle: number): Spot {
  return { x: distance * Math.cos(angle), y: distance * Math.sin(angle) }
}

/** The settings of a shot from one spot. */
export function shotFrom(settings: Settings, { x, y }: Spot, shot?: string): Settings {
  return {
    quantities: { ...settings.quantities, "play.distance": Math.hypot(x, y), "play.angle": Math.atan2(y, x) },
    choices: shot === undefined ? settings.choices : { ...settings.choices, "shooter.shot": shot },
    origins: [],
    events: settings.events,
  }
}

/** A pass to `to`, ready for what follows `wait` after it arrives. */
export function passTo(
  { x, y }: Spot,
  speed: MetresPerSecond,
  speedSpread: MetresPerSecond,
  flies: Metres,
  wait: Seconds,
  waitSpread: number,
): Leg {
  return { kind: "pass", x, y, speed, speedSpread, flies, wait, waitSpread }
}

/** The puck carried to `to`, in sight; what follows comes `wait` later. */
export function carryTo(
  { x, y }: Spot,
  speed: MetresPerSecond,
  speedSpread: MetresPerSecond,
  wait: Seconds = 0,
  waitSpread = 0,
): Leg {
  return { kind: "carry", x, y, speed, speedSpread, flies: 0, wait, waitSpread }
}

/** The puck taken aside to `to` of a sudden; the goalie has to read it. */
export function cutTo(
  { x, y }: Spot,
  speed: MetresPerSecond,
  speedSpread: MetresPerSecond,
  wait: Seconds = 0,
  waitSpread = 0,
): Leg {
  return { kind: "cut", x, y, speed, speedSpread, flies: 0, wait, waitSpread }
}
