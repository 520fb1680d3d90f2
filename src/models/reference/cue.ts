import type { Metres } from "../../sim/units.ts"
import { chosenRink } from "../rink/chosen-rink.ts"
import { RINK_PRESETS, type RinkName } from "../rink/presets.ts"
import type { Settings } from "../settings.ts"
import { backingInError } from "./backing-in.ts"
import { type CueError, NO_ERROR } from "./cue-error.ts"
import { farNetError } from "./far-net.ts"
import { type KnownRink, markError } from "./ice-marking.ts"
import { measuredKeys } from "./measured.ts"
import { type CueName, type MarkName, type NO_CUE, THIS_RINK } from "./parameters.ts"
import { postError } from "./post.ts"
import { roofLineError } from "./roof-line.ts"
import { bodyError } from "./shooters-body.ts"

/** What a cue is read from: the sheet here, the home sheet, the mark, and half the width of the goal's mouth. */
export interface Surroundings {
  readonly here: KnownRink
  /** Null: at home. */
  readonly home: KnownRink | null
  readonly mark: MarkName
  readonly mouthHalfWidth: Metres
}

/** The surroundings that the settings choose. */
export function chosenSurroundings(settings: Settings, mouthHalfWidth: Metres): Surroundings {
  const home = settings.choices["reference.home"]
  return {
    here: { rink: chosenRink(settings), measured: measuredKeys(settings) },
    home: home === THIS_RINK ? null : { rink: RINK_PRESETS[home as RinkName], measured: new Set() },
    mark: settings.choices["reference.mark"] as MarkName,
    mouthHalfWidth,
  }
}

/**
 * How wrong a cue is at a depth on the line to a puck at (x, y). `backedFrom`: the depth from which a goalie who backs in
 * has come; as the settings say unless given.
 */
export function cueError(
  cue: CueName | typeof NO_CUE,
  settings: Settings,
  around: Surroundings,
  depth: Metres,
  x: Metres,
  y: Metres,
  backedFrom: Metres = settings.quantities["reference.back_in_from"],
): CueError {
  const q = settings.quantities
  const bearing = Math.atan2(y, x)
  const turn = q["reference.turn_misjudged"]
  switch (cue) {
    case "none":
      return NO_ERROR
    case "post": {
      const [place, direction] = [q["reference.post_error"], q["reference.step_out_error"]]
      return postError({ place, direction, mouthHalfWidth: around.mouthHalfWidth }, depth, bearing)
    }
    case "backing in":
      return backingInError({ from: backedFrom, drift: q["reference.back_in_error"] }, depth)
    case "ice marking":
      return markError({ ...around, paint: q["reference.paint_error"] }, around.mark, y)
    case "far net":
      return farNetError({ middle: q["reference.far_net_error"], turn }, bearing)
    case "roof line":
      return roofLineError({ shift: q["reference.roof_shift"], middle: q["reference.roof_error"], turn }, bearing)
    case "shooter's body":
      return bodyError({ beside: q["shooter.reach"], blade: bladeSide(settings) }, Math.hypot(x, y))
  }
}

/** A backhand has the puck on the other side of the body. */
function bladeSide(settings: Settings): "left" | "right" {
  const isLeft = settings.choices["shooter.hand"] === "left"
  return isLeft === (settings.choices["shooter.shot"] !== "backhand") ? "left" : "right"
}
