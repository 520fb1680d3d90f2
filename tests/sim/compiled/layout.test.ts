import { expect, test } from "vitest"
import { BOX_RECORD } from "../../../src/sim/box-record.ts"
import * as layout from "../../../src/sim/compiled/layout.ts"
import { FRAME_LENGTH, LEVEL_LENGTH } from "../../../src/sim/meeting-columns.ts"
import * as T from "../../../src/sim/motion/timeline.ts"
import { LIMB_STRIDE, LIMBS, REGIONS } from "../../../src/sim/parts.ts"
import { PATH_STRIDE } from "../../../src/sim/path.ts"
import { NORMAL_TABLE_LENGTH } from "../../../src/sim/random/fast-normal.ts"
import { noSaves } from "../../../src/sim/saves.ts"

/** Bytes of a number. */
const NUMBER = 8
const { MOST_PARTS, MOST_PHASES, MOST_STRETCHES } = layout
const STRETCHES = layout.STRETCH_LIMB + MOST_STRETCHES

/** What stands where, and how long it is: the memory, what is known of a part, a posture, and a part of it. */
const TABLES: Readonly<Record<string, readonly (readonly [at: number, bytes: number])[]>> = {
  memory: [
    [layout.MOMENT, layout.MOMENT_LENGTH * NUMBER],
    [layout.TURN, NUMBER],
    [layout.FRAME, FRAME_LENGTH * NUMBER],
    [layout.PATH, PATH_STRIDE * NUMBER],
    [layout.SAVES, STRETCHES],
    [layout.COVER, STRETCHES],
    [layout.STATE, T.STATE_LENGTH * NUMBER],
    [layout.HAND, layout.HAND_PHASES + 4],
    [layout.OUTCOME, layout.OUTCOME_NUMBERS * NUMBER],
    [layout.TIMELINE, T.PIECE_MODES * NUMBER],
    [layout.ENDS, 2 * MOST_STRETCHES * NUMBER],
    [layout.RECORD, BOX_RECORD * NUMBER],
    [layout.MET_PARTS, MOST_PARTS * layout.MET_STRIDE],
    [layout.NORMAL, NORMAL_TABLE_LENGTH * NUMBER],
    [layout.DISC_RADIUS, NUMBER],
    [layout.DISC_HALF, NUMBER],
    [layout.POSTURES, 0],
  ],
  stretches: [
    [layout.STRETCH_COUNT, 4],
    [layout.STRETCH_CERTAIN, 4],
    [layout.STRETCH_LO, MOST_STRETCHES * NUMBER],
    [layout.STRETCH_HI, MOST_STRETCHES * NUMBER],
    [layout.STRETCH_WHEN, MOST_STRETCHES * NUMBER],
    [layout.STRETCH_REGION, MOST_STRETCHES],
    [layout.STRETCH_LIMB, MOST_STRETCHES],
  ],
  moment: [
    [layout.MOMENT_ERRORS, LIMBS.length],
    [layout.MOMENT_LENGTH, 0],
  ],
  outcome: [
    [layout.OUTCOME_SAVED, NUMBER],
    [layout.OUTCOME_BY_BLOCK, NUMBER],
    [layout.OUTCOME_BY_REGION, REGIONS.length * NUMBER],
    [layout.OUTCOME_NUMBERS * NUMBER, 0],
  ],
  "what is known of a part": [
    [0, LEVEL_LENGTH * NUMBER],
    [layout.MET_TURN, NUMBER],
    [layout.MET_STATE, 4],
    [layout.MET_KNOWN, 4],
    [layout.MET_LEAST, NUMBER],
    [layout.MET_MOST, NUMBER],
    [layout.MET_FILLED, MOST_PHASES],
    [layout.MET_MEASURED, MOST_PHASES],
    [layout.MET_COVERS, MOST_PHASES],
    [layout.MET_GAPS, MOST_PHASES * NUMBER],
    [layout.MET_LOCAL, MOST_PHASES * layout.LOCAL_STRIDE],
    [layout.MET_STRIDE, 0],
  ],
  posture: [
    [layout.POSTURE_COUNT, 4],
    [layout.POSTURE_PHASES, 4],
    [layout.POSTURE_ORDER, MOST_PARTS],
    [layout.POSTURE_LIMBS, LIMBS.length * LIMB_STRIDE * NUMBER],
    [layout.POSTURE_ROOTS, MOST_PHASES * LIMBS.length * 3 * NUMBER],
    [layout.POSTURE_PARTS, 0],
  ],
  part: [
    [layout.PART_BOUNDS, 9 * NUMBER],
    [layout.PART_REGION, 4],
    [layout.PART_LIMB, 4],
    [layout.PART_MIDDLE, 2 * NUMBER],
    [layout.PART_SIZES, 3 * NUMBER],
    [layout.PART_ROUNDING, NUMBER],
    [layout.PART_MOVES, MOST_PHASES * NUMBER],
    [layout.PART_ROWS, MOST_PHASES * layout.ROW_STRIDE],
    [layout.PART_BOXES, MOST_PHASES * layout.BOX_STRIDE],
    [layout.PART_BYTES, 0],
  ],
}

// seen to fail: with room for one more on either side
test("both kernels keep as many stretches", () => {
  expect(noSaves().lo.length).toBe(MOST_STRETCHES)
})

// seen to fail: with the timeline as long as the one in TypeScript, its modes among it; with more parts or stretches than there is room for
test.each(Object.entries(TABLES))("no table of the compiled kernel runs into the next: %s", (_, tables) => {
  for (const [k, [at, bytes]] of tables.slice(0, -1).entries())
    expect(at + bytes, `table ${k}`).toBeLessThanOrEqual(tables[k + 1]![0])
})
