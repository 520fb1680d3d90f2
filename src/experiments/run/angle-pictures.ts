import { chosenFrame } from "../../models/goal/chosen-frame.ts"
import { chosenDepth } from "../../models/positioning/pose-numbers.ts"
import { referenceOfPlay } from "../../models/positioning/reference-of-play.ts"
import { offTheLine } from "../../models/reference/cue-error.ts"
import { NO_CUE, THIS_RINK } from "../../models/reference/parameters.ts"
import { chosenRink } from "../../models/rink/chosen-rink.ts"
import { RINK_PRESETS, type RinkName } from "../../models/rink/presets.ts"
import type { Settings } from "../../models/settings.ts"
import type { DesignPoint, Experiment } from "../experiment.ts"
import type { AnglePicture } from "../results.ts"
import { poseText, puckText } from "./picture-points.ts"

/** Pictures of one run at most. */
const MOST = 4

/** Where the goalie takes the line to be and where it is, for points whose goalie goes by a cue: the first, the last, others between. */
export function anglePicturesOf(experiment: Experiment): AnglePicture[] {
  const cued = experiment.points.filter(({ settings }) => settings.choices["reference.cue"] !== NO_CUE)
  const pictures = cued.map((point) => pictureOf(experiment, point))
  const ids = pictures.map((picture) => JSON.stringify([picture.puck, picture.depth, picture.bias, picture.spread]))
  const own = pictures.filter((_, i) => ids.indexOf(ids[i]!) === i)
  const step = (own.length - 1) / Math.max(1, Math.min(MOST, own.length) - 1)
  return Array.from({ length: Math.min(MOST, own.length) }, (_, i) => own[Math.round(i * step)]!)
}

function pictureOf(experiment: Experiment, point: DesignPoint): AnglePicture {
  const { settings, index } = point
  const { "play.distance": distance, "play.angle": angle } = settings.quantities
  const depth = chosenDepth(settings)
  const error = referenceOfPlay(settings, depth)
  return {
    index,
    title: poseText(experiment, index),
    subtitle: puckText(point),
    rink: chosenRink(settings),
    remembered: rememberedRink(settings),
    mouthHalfWidth: 0.5 * chosenFrame(settings).width,
    puck: { x: distance * Math.cos(angle), y: distance * Math.sin(angle) },
    depth,
    ...offTheLine({ ...error, angleBias: error.angleBias + settings.quantities["goalie.angle_bias"] }, depth),
  }
}

/** The sheet whose marks the goalie remembers, where that is another than this. */
function rememberedRink(settings: Settings): AnglePicture["remembered"] {
  const home = settings.choices["reference.home"]
  if (settings.choices["reference.cue"] !== "ice marking" || home === THIS_RINK) return null
  return RINK_PRESETS[home as RinkName]
}
