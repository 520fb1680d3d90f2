import type { Metres, Radians } from "../../sim/units.ts"
import { chosenFrame } from "../goal/chosen-frame.ts"
import type { PlayBranch } from "../plays/branch.ts"
import { branchesOf } from "../plays/branches.ts"
import type { Origin } from "../plays/origin.ts"
import { chosenSurroundings, cueError } from "../reference/cue.ts"
import { type CueError, NO_ERROR } from "../reference/cue-error.ts"
import { type CueName, NO_CUE } from "../reference/parameters.ts"
import type { Settings } from "../settings.ts"
import { depthPath } from "./depth-path.ts"

/** Errors this near each other are one: m and rad. */
const SAME = 1e-9

/**
 * The error of the chosen cue at the place of the play, at a depth. One pose serves every place of a play, so a cue that
 * errs by another amount at another place has no error to give. The post is left for the puck that was carried in, the
 * way backed is the one of the depth path; what is seen at the release is read there. An error that was brought along is
 * kept on the new line when the puck is passed.
 *
 * @throws RangeError where the play has places at which the cue differs
 */
export function referenceOfPlay(settings: Settings, depth: Metres): CueError {
  const cue = settings.choices["reference.cue"] as CueName | typeof NO_CUE
  if (cue === NO_CUE) return NO_ERROR
  const around = chosenSurroundings(settings, 0.5 * chosenFrame(settings).width)
  const from = settings.choices["goalie.depth_path"] === "outside in" ? depthPath(settings, depth).start : undefined
  const errors = branchesOf(settings)
    .flatMap((branch) => (cue === "post" ? leftFor(branch) : placesOf(branch.settings)))
    .map(([x, y]) => cueError(cue, settings, around, depth, x, y, from))
  const first = errors[0]!
  const fields = Object.keys(first) as (keyof CueError)[]
  if (errors.every((error) => fields.every((field) => Math.abs(error[field] - first[field]) <= SAME))) return first
  throw new RangeError(
    `Cannot place the goalie as the play of reference.cue ${cue} must be from one spot: current value is ${errors.length} places at which it errs differently`,
  )
}

/** The bias of an error as an angle about the middle of the goal line: off the line at this depth by the same. */
export function biasAbout(error: CueError, depth: Metres): Radians {
  return error.offLineBias === 0 || depth === 0 ? error.angleBias : error.angleBias + error.offLineBias / depth
}

type Point = readonly [Metres, Metres]

/** For which places of the puck the post is left: where the puck is carried to first, or the places of the shot. */
function leftFor(branch: PlayBranch): Point[] {
  const carry = branch.legs.find(({ kind }) => kind === "carry")
  return carry === undefined || carry === branch.legs.at(-1) ? placesOf(branch.settings) : [[carry.x, carry.y]]
}

/** Spots, and the corners of larger places with their middle: where a cue can differ most. */
function placesOf(settings: Settings): Point[] {
  if (settings.origins.length > 0) return settings.origins.flatMap(pointsOf)
  const { "play.distance": distance, "play.angle": angle } = settings.quantities
  return [[distance * Math.cos(angle), distance * Math.sin(angle)]]
}

function pointsOf(origin: Origin): Point[] {
  switch (origin.kind) {
    case "spot":
      return [[origin.x, origin.y]]
    case "polygon":
      return [...origin.corners, middleOf(origin.corners)]
    case "wedge": {
      const { nearest, farthest, from, to } = origin
      const at = (r: Metres, angle: Radians): Point => [r * Math.cos(angle), r * Math.sin(angle)]
      const middle = at(0.5 * (nearest + farthest), 0.5 * (from + to))
      return [at(nearest, from), at(farthest, from), at(nearest, to), at(farthest, to), middle]
    }
  }
}

function middleOf(points: readonly Point[]): Point {
  const mean = (coordinate: 0 | 1) => points.reduce((sum, point) => sum + point[coordinate], 0) / points.length
  return [mean(0), mean(1)]
}
