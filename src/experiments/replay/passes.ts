import { PARTS } from "../../models/goalie/part-names.ts"
import { savedUntil } from "../../sim/answer.ts"
import { LIMBS, NO_LIMB, type Posture, REGIONS } from "../../sim/parts.ts"
import { PATH_STRIDE } from "../../sim/path.ts"
import { DRAW_LIMB, GOALIE_DRAWS } from "../../sim/shots.ts"
import { dropClock, handsStart } from "./goalie-story.ts"
import { type LimbReach, limbReach } from "./limb-reach.ts"
import { bodyNow, type FiredShot, type Replay, stationAt } from "./replay.ts"
import { bounded, centimetres, milliseconds } from "./round.ts"
import type { LimbStory, PassStory, StandingStory } from "./story.ts"
import { type DropClock, type Pass, passOf, phaseAt, shiftToClear, type Watch, watchFlight } from "./watch.ts"

/** One part as the puck passed it, measured. */
export interface MeasuredPass {
  readonly pass: Pass
  readonly reach: LimbReach | null
  /** Inside the edge of a part that stops the puck where the drop has it, m. */
  readonly inside: number | null
  readonly stops: boolean
  /** Positive: stopped with this much to spare. Negative: by this much the puck got by, limb included. m */
  readonly margin: number
}

/** Measures every part against the puck for the drawn reaction; what stops it or comes nearest first. */
export function measurePasses(replay: Replay, fired: FiredShot): MeasuredPass[] {
  const { batch, goalkeeping: g } = replay.engine
  const clocks = dropClock(replay, fired)
  const watch = watchShot(replay, fired, clocks)
  const { posture } = watch
  const starts = handsStart(replay, fired)
  const passes = Array.from({ length: posture.count }, (_, part): MeasuredPass => {
    const pass = passOf(watch, part)
    const limb = posture.carrier[part]!
    const reach =
      limb === NO_LIMB || starts === Infinity
        ? null
        : limbReach(posture, stationAt(replay, pass.time), limb, {
            gap: pass.clearance,
            time: pass.time,
            phase: phaseAt(clocks, pass.time),
            puck: pass.puck,
            handsStart: starts,
            errorLength: batch.goalie[fired.i * GOALIE_DRAWS + DRAW_LIMB + limb]!,
          })
    const touches = pass.clearance <= 0
    const covers = touches && !g.now.leaks
    const inside = touches ? shiftToClear(watch, part) : null
    const carried = !touches && reach !== null ? reach.margin : -Infinity
    const margin = covers ? inside! : Math.max(carried, touches ? -Infinity : -pass.clearance)
    return { pass, reach, inside, stops: covers || carried >= 0, margin }
  })
  return passes.sort(
    (a, b) => Number(b.stops) - Number(a.stops) || (a.stops ? a.pass.time - b.pass.time : b.margin - a.margin),
  )
}

/** The body frozen as it stands: what stops the puck, or what it passes nearest. */
export function standingStory(replay: Replay, fired: FiredShot): StandingStory {
  const { now } = replay.engine.goalkeeping
  const watch = watchShot(replay, fired, { start: Infinity, takes: now.dropTime, last: 1 })
  const passes = Array.from({ length: watch.posture.count }, (_, part) => passOf(watch, part))
  const touched = now.leaks ? [] : passes.filter(({ clearance }) => clearance <= 0)
  const first = touched.sort((a, b) => a.time - b.time)[0]
  if (first !== undefined)
    return {
      stops: true,
      part: partName(watch.posture, first.part),
      byCm: centimetres(shiftToClear(watch, first.part)),
    }
  const nearest = passes.reduce((a, b) => (b.clearance < a.clearance ? b : a))
  return {
    stops: false,
    part: partName(watch.posture, nearest.part),
    byCm: centimetres(Math.max(0, nearest.clearance)),
  }
}

/** A measured pass in the story's units. */
export function passStory(posture: Posture, measured: MeasuredPass): PassStory {
  const { pass, reach, inside, stops, margin } = measured
  return {
    part: partName(posture, pass.part),
    region: REGIONS[posture.region[pass.part]!]!,
    timeMs: milliseconds(pass.time),
    clearanceCm: centimetres(pass.clearance),
    insideCm: inside === null ? null : centimetres(inside),
    limb: reach === null || pass.clearance <= 0 ? null : limbStory(reach),
    stops,
    marginCm: centimetres(margin),
  }
}

function limbStory(reach: LimbReach): LimbStory {
  return {
    limb: LIMBS[reach.limb]!,
    state: reach.state,
    wayToGoCm: centimetres(reach.wayToGo),
    movedCm: centimetres(reach.moved),
    placementErrorCm: centimetres(reach.error),
    marginCm: bounded(centimetres(reach.margin)),
  }
}

function watchShot(replay: Replay, { i }: FiredShot, clocks: DropClock): Watch {
  const { batch, goalkeeping: g } = replay.engine
  const offset = i * PATH_STRIDE
  const end = savedUntil(g, batch, i, offset)
  return watchFlight(bodyNow(replay), g.scene.world, (time) => stationAt(replay, time), batch.path, offset, end, clocks)
}

/** A part's own name where the body has the usual parts, else that of its region. */
export function partName(posture: Posture, part: number): string {
  return posture.count === PARTS.length ? PARTS[part]! : REGIONS[posture.region[part]!]!
}
