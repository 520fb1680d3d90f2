import { zoneCuts } from "../../models/positioning/box.ts"
import { zoneOf } from "../../sim/box/openings.ts"
import { BLOCKED, IRON_IN, IRON_OUT, isOnGoal, NO_SHOT, SHORT } from "../../sim/fate.ts"
import { LIMBS, NO_LIMB, REGIONS } from "../../sim/parts.ts"
import { SHOT_MOUTH_Y, SHOT_MOUTH_Z, SHOT_STRIDE } from "../../sim/shots.ts"
import {
  BAR_RADIUS,
  MOUTH_HALF_WIDTH,
  MOUTH_HEIGHT,
  POST_RADIUS,
  PUCK_HALF_THICKNESS,
  PUCK_RADIUS,
} from "../../sim/world.ts"
import { type MeasuredPass, partName } from "./passes.ts"
import { bodyNow, type FiredShot, type Replay } from "./replay.ts"
import { bounded, centimetres, milliseconds } from "./round.ts"
import type { FlightStory, VerdictStory } from "./story.ts"
import { type Spare, type Stretch, spareOf } from "./stretches.ts"

const NOTHING: VerdictStory = {
  outcome: "miss",
  goal: null,
  by: null,
  byCm: null,
  byMs: null,
  way: null,
  iron: null,
  knifeEdge: false,
}

/** What became of the shot, for the drawn reaction, as the run's own rule has it; the measured passes say by how much. */
export function verdictStory(
  replay: Replay,
  fired: FiredShot,
  flight: FlightStory,
  measured: readonly MeasuredPass[],
  stretches: readonly Stretch[],
): VerdictStory {
  const fate = replay.engine.batch.fate[fired.i]!
  if (fate === BLOCKED) return { ...NOTHING, outcome: "blocked" }
  if (fate === NO_SHOT) return { ...NOTHING, outcome: "no shot" }
  if (!isOnGoal(fate)) {
    const outcome = fate === IRON_OUT ? "iron, out" : fate === SHORT ? "short" : "miss"
    return { ...NOTHING, outcome, iron: ironOf(replay, flight, outcome === "miss") }
  }
  const saved = fired.by >= 0
  const stopped = measured[0]?.stops === true
  const spare = measured.length > 0 ? spareOf(stretches, fired.start, -replay.engine.goalkeeping.now.read) : null
  return {
    ...NOTHING,
    outcome: saved ? "save" : "goal",
    goal: saved ? null : goalOf(replay, fired, fate),
    ...byWhom(replay, fired, measured),
    ...spareStory(spare),
    iron: fate === IRON_IN ? ironOf(replay, flight, false) : null,
    knifeEdge: measured.length > 0 && saved !== stopped,
  }
}

function spareStory(spare: Spare | null): Pick<VerdictStory, "byMs" | "way"> {
  return spare === null ? { byMs: null, way: null } : { byMs: bounded(milliseconds(spare.by)), way: spare.way }
}

/** The part that made the save, of the region and limb the run names; or what came nearest to one. */
function byWhom(
  replay: Replay,
  { by }: FiredShot,
  measured: readonly MeasuredPass[],
): Pick<VerdictStory, "by" | "byCm"> {
  const { saves } = replay.engine.goalkeeping
  const posture = bodyNow(replay)
  const nearest = measured[0]
  if (nearest === undefined) return { by: null, byCm: null }
  if (by < 0) {
    const limb =
      nearest.reach?.state === "in reach" && nearest.margin === nearest.reach.margin ? nearest.reach.limb : null
    const region = REGIONS[posture.region[nearest.pass.part]!]!
    return {
      by: { part: partName(posture, nearest.pass.part), region, limb: limb === null ? null : LIMBS[limb]! },
      byCm: nearest.stops ? 0 : bounded(centimetres(Math.max(0, -nearest.margin))),
    }
  }
  const region = saves.region[by]!
  const limb = saves.limb[by]!
  const inRegion = measured.filter(({ pass }) => posture.region[pass.part] === region)
  const how = (one: MeasuredPass): boolean => one.stops && one.pass.clearance <= 0 === (limb === NO_LIMB)
  // where the steps deny the part the run names, the first part they see stop the puck makes the save
  const confirmed = inRegion.find(how) ?? (nearest.stops ? nearest : undefined)
  const saver = confirmed ?? inRegion.reduce((a, b) => (b.margin > a.margin ? b : a))
  const carrier = confirmed === undefined ? limb : carrierOf(saver)
  return {
    by: {
      part: partName(posture, saver.pass.part),
      region: REGIONS[posture.region[saver.pass.part]!]!,
      limb: carrier === NO_LIMB ? null : LIMBS[carrier]!,
    },
    byCm: centimetres(Math.max(0, saver.margin)),
  }
}

/** The limb that brings a stopping part to the puck; none where the part is in the way by itself. */
function carrierOf({ pass, reach }: MeasuredPass): number {
  return pass.clearance <= 0 || reach === null ? NO_LIMB : reach.limb
}

function goalOf({ engine, point }: Replay, { i }: FiredShot, fate: number): VerdictStory["goal"] {
  const y = engine.batch.shot[i * SHOT_STRIDE + SHOT_MOUTH_Y]!
  const z = engine.batch.shot[i * SHOT_STRIDE + SHOT_MOUTH_Z]!
  const zone = zoneOf(y, z, zoneCuts(point.settings))
  return { zone, yCm: centimetres(y), heightCm: centimetres(z), offIron: fate === IRON_IN }
}

/** The iron nearest to where the path crosses the line's plane; for a miss by how much it was cleared. */
function ironOf({ engine }: Replay, { atLine }: FlightStory, missed: boolean): VerdictStory["iron"] {
  if (atLine === null) return null
  const { world } = engine.goalkeeping.scene
  const y = atLine.yCm / 100
  const wide = Math.abs(y) - world[MOUTH_HALF_WIDTH]!
  const over = atLine.heightCm / 100 - world[MOUTH_HEIGHT]!
  // beyond the iron's far side by less than nothing where the path is not a miss on that side
  const beyondPost = wide - 2 * world[POST_RADIUS]! - world[PUCK_RADIUS]!
  const beyondBar = over - 2 * world[BAR_RADIUS]! - world[PUCK_HALF_THICKNESS]!
  const isBar = missed ? beyondBar > beyondPost : over > wide
  const which = isBar ? "crossbar" : y > 0 ? "left post" : "right post"
  return { which, byCm: missed ? centimetres(Math.max(0, isBar ? beyondBar : beyondPost)) : null }
}
