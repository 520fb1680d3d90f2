import { describe, expect, test } from "vitest"
import { compileScene } from "../../src/models/plays/scene.ts"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"
import { faceShot, type Goalkeeping, standForShot } from "../../src/sim/answer.ts"
import { clearanceMoving, clearanceStill, coversAt, gapAt, leastGapAt } from "../../src/sim/clearance.ts"
import { ON_GOAL } from "../../src/sim/fate.ts"
import { meetPart } from "../../src/sim/meet.ts"
import { setDrop } from "../../src/sim/meet-goalie.ts"
import { LEVEL_LEAST_GAP, LEVEL_PACE } from "../../src/sim/meeting.ts"
import { CENTRE, PART_STRIDE } from "../../src/sim/parts.ts"
import { heightAt, PATH_DX, PATH_DY, PATH_STRIDE, PATH_X, PATH_Y, slopeAt } from "../../src/sim/path.ts"
import { DROP_TIME } from "../../src/sim/pose.ts"
import { BOX_RECORD, CLEARANCE, clearancePath } from "../../src/sim/rounded-box.ts"
import { engine } from "../../src/sim/sampling.ts"
import { makeShots } from "../../src/sim/shots.ts"
import { STATION_COS, STATION_SIN, STATION_X, STATION_Y } from "../../src/sim/station.ts"
import { POST_RADIUS, PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../../src/sim/world.ts"

const KEY = [41, 7] as const
const COUNT = 64

/** Every shot on goal of a batch met by two stances from near and from the side: parts met and refused, one by one. */
function eachPart(visit: (g: Goalkeeping, part: number, met: boolean, path: Float64Array, at: number) => void): void {
  for (const [distance, angle] of [
    [8, 0],
    [5, 0.6],
  ] as const) {
    const settings = ["set", "butterfly"].map((stance) =>
      withSettings(defaultSettings(), {
        quantities: { "goalie.depth": 0.9, "play.distance": distance, "play.angle": angle },
        choices: { "goalie.stance": stance },
      }),
    )
    const scene = compileScene(settings)
    const { batch, goalkeeping: g } = engine(scene, COUNT)
    makeShots(scene, KEY, 0, 0, COUNT, batch)
    for (let i = 0; i < COUNT; i++) {
      if (batch.fate[i] !== ON_GOAL) continue
      for (const pose of scene.poses) {
        standForShot(g, pose, batch, i)
        faceShot(g, pose, batch, i, i * PATH_STRIDE)
        const prepared = g.prepared[pose.posture]!
        setDrop(g.meeting, prepared.posture.phases, pose.numbers[DROP_TIME]!)
        for (let part = 0; part < prepared.posture.count; part++) {
          const met = meetPart(g.meeting, prepared, part, batch.path, i * PATH_STRIDE)
          g.meeting.prepared = prepared
          visit(g, part, met, batch.path, i * PATH_STRIDE)
        }
      }
    }
  }
}

/** Clearance of a part at rest at one key phase, from the tables alone: the path's tangent where it is level with it. */
function slowClearance(g: Goalkeeping, part: number, phase: number, path: Float64Array, at: number): number {
  const { posture } = g.meeting.prepared!
  const c = g.station[STATION_COS]!
  const s = g.station[STATION_SIN]!
  const x = path[at + PATH_X]! - g.station[STATION_X]!
  const y = path[at + PATH_Y]! - g.station[STATION_Y]!
  const u = c * x + s * y
  const v = c * y - s * x
  const du = c * path[at + PATH_DX]! + s * path[at + PATH_DY]!
  const dv = c * path[at + PATH_DY]! - s * path[at + PATH_DX]!
  const middle = ((posture.phases >> 1) * posture.count + part) * PART_STRIDE + CENTRE
  const level = Math.max(0, (posture.parts[middle]! - u) * du + (posture.parts[middle + 1]! - v) * dv)
  const z = heightAt(path, at, level)
  const row = (phase * posture.count + part) * PART_STRIDE
  const { world } = g.scene
  const box = new Float64Array(BOX_RECORD)
  // until the whole puck is over a line as wide as the posts
  const over = (path[at + PATH_X]! + world[PUCK_RADIUS]! + world[POST_RADIUS]!) / -path[at + PATH_DX]!
  const end = over - level
  const slope = slopeAt(path, at, level)
  const [radius, half] = [world[PUCK_RADIUS]!, world[PUCK_HALF_THICKNESS]!]
  clearancePath(posture.parts, row, u + du * level, v + dv * level, z, du, dv, slope, -level, end, radius, half, box)
  return box[CLEARANCE]!
}

describe("what is not measured of a part", () => {
  test("a part at rest clears the path by what the tables alone say", () => {
    // seen to fail: the part of key phase 2 taken for later ones too
    let looked = 0
    eachPart((g, part, met, path, at) => {
      if (!met) return
      for (const phase of [8, 0, 3]) {
        expect(clearanceStill(g.meeting, phase)).toBeCloseTo(slowClearance(g, part, phase, path, at), 8)
        looked++
      }
    })
    expect(looked).toBeGreaterThan(1000)
  })

  test("a refused part covers the path at no phase", () => {
    // seen to fail: paths refused that pass within 5 cm of the bounds
    let refused = 0
    eachPart((g, part, met, path, at) => {
      if (met) return
      refused++
      for (let phase = 0; phase < 9; phase++) expect(slowClearance(g, part, phase, path, at)).toBeGreaterThan(0)
    })
    expect(refused).toBeGreaterThan(1000)
  })

  test("no clearance is less than the least one said of it", () => {
    // seen to fail: the boxes of a key phase without its neighbours
    const out = new Float64Array(1)
    let said = 0
    eachPart((g, _, met) => {
      if (!met) return
      for (let k = 0; k < 9; k++) {
        leastGapAt(g.meeting, k, out)
        // zero or less says nothing
        const least = Math.max(out[0]!, g.meeting.level[LEVEL_LEAST_GAP]!)
        if (least <= 0) continue
        expect(gapAt(g.meeting, k)).toBeGreaterThanOrEqual(least)
        said++
      }
    })
    expect(said).toBeGreaterThan(1000)
  })

  test("a part covers the path at a key phase where its measured clearance is zero or less", () => {
    // seen to fail: a third of the slack for the part's motion; boxes not grown by the puck
    let covered = 0
    eachPart((g, part, met) => {
      if (!met) return
      // told first, from bounds where they do; measured after, without what has been kept
      const told = Array.from({ length: 9 }, (_, k) => coversAt(g.meeting, k))
      for (const [k, covers] of told.entries()) {
        const rate = (g.meeting.level[LEVEL_PACE]! * 8) / 0.3
        const gap = k === 0 || k === 8 ? clearanceStill(g.meeting, k) : clearanceMoving(g.meeting, k, 9, rate)
        expect(covers, `part ${part} at phase ${k}`).toBe(gap <= 0)
        if (covers) covered++
      }
    })
    expect(covered).toBeGreaterThan(500)
  })
})
