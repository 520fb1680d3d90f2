import { FATES } from "../../sim/fate.ts"
import { REGIONS } from "../../sim/parts.ts"
import type { Scene } from "../../sim/pose.ts"
import * as R from "../../sim/shot-record.ts"
import * as B from "../../sim/shots.ts"
import * as S from "../../sim/strata.ts"
import type { KeptLayout, PoseLabel } from "./layout.ts"

/** One shot against one goalie, as the columns read it. The same object for every row. */
export interface Row {
  readonly scene: Scene
  readonly batch: B.ShotBatch
  readonly record: Float64Array
  label: PoseLabel
  /** Place in the batch. */
  i: number
}

type Cell = number | string | boolean | null

/** One column of the kept shots. */
export interface KeptColumn {
  readonly name: string
  readonly type: "INT32" | "DOUBLE" | "BOOLEAN" | "STRING"
  /** Whether a row may say nothing. */
  readonly optional: boolean
  readonly about: string
  readonly read: (row: Row) => Cell
}

const text = (name: string, about: string, read: (row: Row) => string): KeptColumn => ({
  name,
  type: "STRING",
  optional: false,
  about,
  read,
})

const whole = (name: string, about: string, read: (row: Row) => number): KeptColumn => ({
  name,
  type: "INT32",
  optional: false,
  about,
  read,
})

const ofShot = (name: string, about: string, column: number, optional = false): KeptColumn => ({
  name,
  type: "DOUBLE",
  optional,
  about,
  read: ({ batch, i }) => orNull(batch.shot[i * B.SHOT_STRIDE + column]!),
})

const ofRecord = (name: string, about: string, column: number, optional = true): KeptColumn => ({
  name,
  type: "DOUBLE",
  optional,
  about,
  read: ({ record }) => orNull(record[column]!),
})

const whether = (name: string, about: string, column: number): KeptColumn => ({
  name,
  type: "BOOLEAN",
  optional: true,
  about,
  read: ({ record }) => (Number.isNaN(record[column]!) ? null : record[column] === 1),
})

function orNull(value: number): number | null {
  return Number.isNaN(value) ? null : value
}

/** What every run keeps of the shot before any goalie. */
const SHOT: readonly KeptColumn[] = [
  text("spot", "place of the play that it is taken from", ({ scene, batch, i }) => {
    return scene.spots[scene.strata.table[batch.stratum[i]! * S.STRATUM_STRIDE + S.SPOT]!]!
  }),
  whole("replicate", "with shot its name: replay --shot replicate:shot", ({ batch }) => batch.replicate),
  whole("shot", "its place among the shots of the replicate, from 0", ({ batch, i }) => batch.first + i),
  ofRecord("weight", "how often it counts for this point; the mean is 1", R.RECORD_WEIGHT, false),
  ofShot("origin_x_m", "where it leaves the stick, out from the goal line", B.SHOT_X),
  ofShot("origin_y_m", "and to the left of a goalie who faces out", B.SHOT_Y),
  ofShot("aim_y_m", "point of the goal plane that is aimed at, to the left of the middle", B.SHOT_AIM_Y),
  ofShot("aim_z_m", "and above the ice", B.SHOT_AIM_Z),
  ofShot("speed_mps", "speed at the release", B.SHOT_SPEED),
  ofShot("flight_s", "time from the release to the goal plane; none where it never gets there", B.SHOT_MOUTH_T, true),
  ofShot(
    "mouth_y_m",
    "where it crosses the goal plane with nobody there, off the iron where it goes in from there; to the left of the middle",
    B.SHOT_MOUTH_Y,
    true,
  ),
  ofShot("mouth_z_m", "and above the ice", B.SHOT_MOUTH_Z, true),
  text("fate", `what becomes of it with nobody there: ${FATES.join("; ")}`, ({ batch, i }) => FATES[batch.fate[i]!]!),
]

/** What every run keeps of the goalie's answer; nothing for shots that nobody has to stop. */
const ANSWER: readonly KeptColumn[] = [
  ofRecord("saved", "probability of a save, for a shot on goal or in off the iron", R.RECORD_SAVED),
  whether("standing", "whether the body frozen as it stands at the release stops it", R.RECORD_STOOD),
  ofRecord("blocked", "share of blocks by anticipation, the rest being reactions", R.RECORD_BLOCKED),
  {
    name: "saved_by",
    type: "STRING",
    optional: true,
    about: "region of the body with most of the save",
    read: ({ record }) => REGIONS[record[R.RECORD_SAVED_BY]!] ?? null,
  },
  {
    name: "saving_stretches",
    type: "INT32",
    optional: true,
    about: "separate stretches of time in which the hands of a goalie who reacts may start and still save",
    read: ({ record }) => orNull(record[R.RECORD_STRETCHES]!),
  },
  ofRecord(
    "first_saving_start_s",
    "begin of the first stretch, after the release; -Infinity: however early",
    R.RECORD_FIRST_START,
  ),
  ofRecord(
    "last_saving_start_s",
    "end of the last stretch, after the release; Infinity: however late",
    R.RECORD_LAST_START,
  ),
]

/** What only plays with something before the shot have. */
const MOVES: readonly KeptColumn[] = [
  whether("set", "whether the goalie was set at the release", R.RECORD_SET),
  ofRecord("set_for_s", "for how long; less than nothing where set again too late, gone or not", R.RECORD_MARGIN),
]

/** All columns of a run in the order of the file. */
export function keptColumns({ swept, cases, moves }: KeptLayout): KeptColumn[] {
  return [
    whole("point", "design point: replay --point", ({ label }) => label.point),
    ...swept.map(
      ({ name, kind }, at): KeptColumn => ({
        name,
        type: kind === "choice" ? "STRING" : "DOUBLE",
        optional: false,
        about: "swept value of the point",
        read: ({ label }) => label.swept[at]!,
      }),
    ),
    ...(cases ? [text("case", "compared case of the point", ({ label }) => label.case)] : []),
    ...SHOT,
    ...ANSWER,
    ...(moves ? MOVES : []),
  ]
}
