import { GEOMETRY } from "../dist/experiments/run/geometry.js"
import { buildPosture } from "../dist/models/goalie/posture.js"
import { worldOf } from "../dist/models/plays/world.js"
import { boxMeasures, boxOpenings, puckView, viewSeen, zoneCuts } from "../dist/models/positioning/box.js"
import { standFor } from "../dist/models/positioning/stand-for.js"
import { openToPuck } from "../dist/sim/box/box.js"
import { clearCircle } from "../dist/sim/box/clear-circle.js"
import { silhouettes } from "../dist/sim/box/silhouette.js"
import { USUAL_SAMPLER } from "../dist/sim/sampler.js"
import { interleaved, timed } from "./clock.mjs"
import { table } from "./markdown.mjs"
import { depthSettings, depths, KEY } from "./scenes.mjs"

/** How often each is found in one measurement. */
const TIMES = 2

/** Seconds that the box of one goalie takes, the puck 8 m straight ahead: all of it, its parts, and the data of pictures. */
export function boxStage(rounds, kernel) {
  const jobs = Object.entries({ ...partsOf(), ...picturesOf(kernel) })
  const times = interleaved(
    jobs.map(
      ([, find]) =>
        () =>
          timed(() => repeat(find)),
    ),
    rounds,
  )
  return Object.fromEntries(jobs.map(([name], j) => [name, times[j] / TIMES]))
}

function repeat(find) {
  for (let time = 0; time < TIMES; time++) find()
}

/** The box from the settings of its goalie, and what a view of it is measured by. */
export function partsOf() {
  const [settings] = depthSettings(depths(1))
  const cuts = zoneCuts(settings)
  const view = viewOf(settings)
  const { body, puck, mouth } = view
  return {
    all: () => {
      const seen = viewOf(settings)
      return { ...boxMeasures(seen), openings: boxOpenings(seen, cuts) }
    },
    view: () => viewOf(settings),
    seen: () => viewSeen(view),
    passes: () => openToPuck(body, puck, mouth),
    circle: () => clearCircle(silhouettes(puck, body.parts, body.count), mouth),
    openings: () => boxOpenings(view, cuts),
  }
}

/** What the goalie of some settings shows a puck at the place of the play. */
function viewOf(settings) {
  const { "play.distance": x, "shooter.release_height": height } = settings.quantities
  const world = worldOf(settings)
  const posture = buildPosture(settings)
  return puckView(posture, standFor(settings, posture, world, x, 0), world, x, 0, height)
}

/** Data of the two pictures that hang on no shot, as a run has them found. */
function picturesOf(compiled) {
  const [settings] = depthSettings(depths(1))
  const tools = { key: KEY, sampler: USUAL_SAMPLER, compiled }
  return { eye: () => GEOMETRY.panel(settings, tools), map: () => GEOMETRY.map(settings, tools) }
}

/** What the stage found, as a section of a page of Markdown. */
export function boxSection(r) {
  const row = (name, seconds) => [name, (1e3 * seconds).toPrecision(3), (seconds / r.all).toFixed(2)]
  return `## The box

One goalie and one place, 8 m straight ahead, a thread that is warm. The first row is everything that is measured of the
box, from the settings on; the next five are its parts.

${table(
  ["", "ms", "of all"],
  [
    row("all of the box", r.all),
    row("body built, in place and seen from the puck", r.view),
    row("net covered, box area, solid angle", r.seen),
    row("area open to a whole puck", r.passes),
    row("largest clear circle", r.circle),
    row("openings by zone, limb and travel that close each", r.openings),
    row("data of one puck's-eye picture, milliseconds to spare with it", r.eye),
    row("data of one reach map", r.map),
  ],
)}`
}
