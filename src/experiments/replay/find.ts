import { IRON_IN, IRON_OUT, isOnGoal, MISS, SHORT } from "../../sim/fate.ts"
import { REACTS } from "../../sim/moment.ts"
import * as P from "../../sim/pose.ts"
import { type FiredShot, fireShot, type Replay } from "./replay.ts"
import { nextShot, type ShotName } from "./shot-name.ts"
import { spareOf } from "./stretches.ts"
import { stretchesOf } from "./tell.ts"

/** What can be looked for, and what each word means. */
export const FINDS = {
  goal: "beats the goalie",
  save: "is saved",
  close: "is saved or beaten by less than 10 ms",
  late: "goes in as the hands start too late",
  opened: "goes in where the goalie standing still would have stopped it",
  block: "is answered with a block",
  iron: "hits a post or the bar",
  miss: "misses the net",
} as const
export type Find = keyof typeof FINDS
export const FIND_WORDS = Object.keys(FINDS) as Find[]

/** A shot is close within this, s. */
const CLOSE = 0.01
/** Most shots looked at. */
export const MOST_SCANNED = 8192

export interface Found {
  /** Null when none of the scanned shots matches. */
  readonly name: ShotName | null
  readonly scanned: number
}

/** The first shot from `from` on that matches and counts for the point; looks at no more than {@link MOST_SCANNED}. */
export function findShot(replay: Replay, find: Find, from: ShotName): Found {
  let scanned = 0
  for (let name: ShotName | null = from; name !== null && scanned < MOST_SCANNED; name = nextShot(name, replay.plan)) {
    scanned++
    const fired = fireShot(replay, name)
    if (fired.weight > 0 && matches(replay, fired, find)) return { name, scanned }
  }
  return { name: null, scanned }
}

/** Whether the shot in hand is one of those looked for. */
function matches(replay: Replay, fired: FiredShot, find: Find): boolean {
  const { batch, goalkeeping: g } = replay.engine
  const fate = batch.fate[fired.i]!
  if (find === "iron") return fate === IRON_IN || fate === IRON_OUT
  if (find === "miss") return fate === MISS || fate === SHORT
  if (!isOnGoal(fate)) return false
  const saved = fired.by >= 0
  if (find === "save") return saved
  if (find === "goal") return !saved
  // what is left speaks of a goalie
  if (g.scene.poses[replay.pose]!.numbers[P.ANSWER] === P.ANSWER_ABSENT) return false
  if (find === "block") return g.now.blockLead > REACTS && !g.now.committed
  if (find === "opened") return !saved && g.now.stands
  const spare = spareOf(stretchesOf(replay), fired.start, -g.now.read)
  return find === "late" ? spare.way === "late" : spare.by < CLOSE
}
