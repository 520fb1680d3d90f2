import type { Meeting } from "../meeting.ts"
import * as meetingColumns from "../meeting-columns.ts"
import type { Moment } from "../moment.ts"
import * as timelineColumns from "../motion/timeline.ts"
import { LIMBS } from "../parts.ts"
import * as pathColumns from "../path.ts"
import * as poseColumns from "../pose.ts"
import type { PreparedPosture } from "../prepared.ts"
import { NORMAL_TABLE_LENGTH, writeNormalTable } from "../random/fast-normal.ts"
import type { Saves } from "../saves.ts"
import { PUCK_HALF_THICKNESS, PUCK_RADIUS } from "../world.ts"
import * as layout from "./layout.ts"
import { bytesOf, writePosture } from "./posture.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { FRAME_LENGTH } = meetingColumns
const { LEVEL_TIME, MET, MET_BY_REACH } = meetingColumns
const { PATH_COUNT, PATH_PIECES, PATH_STRIDE, PIECE_STRIDE } = pathColumns
const { REACTION_MEDIAN, REACTION_SPREAD } = poseColumns
const { MOMENT_ERRORS, MOMENT_STANDS } = layout
/** Numbers of a timeline up to the last piece of its turn: the kernel asks for no mode. */
const TIMELINE_PIECES = timelineColumns.PIECE_MODES
/** Columns of the outcome, in numbers. */
const OUTCOME_SAVED = layout.OUTCOME_SAVED / Float64Array.BYTES_PER_ELEMENT
const OUTCOME_BY_BLOCK = layout.OUTCOME_BY_BLOCK / Float64Array.BYTES_PER_ELEMENT
const OUTCOME_BY_REGION = layout.OUTCOME_BY_REGION / Float64Array.BYTES_PER_ELEMENT

/** Its memory grows by this much at least, and to this at most: some thousand postures. */
const MORE_BYTES = 1 << 20
const MOST_BYTES = 1 << 25

/** What compiling src/assembly exports: its memory, and what it does for a posture at a place of it. */
export interface CompiledCode {
  readonly memory: { readonly buffer: ArrayBuffer; grow(pages: number): number }
  collectSaves(posture: number): void
  collectCover(posture: number): void
  /** Both of these as decideConditional uses them, and the probability of a save. */
  decide(posture: number): void
}

/** What it asks of its host: functions whose last bits differ between engines, so that both kernels use the same. */
export const HOST = { sin: Math.sin, cos: Math.cos, log: Math.log } as const

/** What of a Goalkeeping the compiled kernel reads, and where it puts what it finds. */
export interface Keeper {
  readonly scene: { readonly world: Float64Array }
  readonly meeting: Meeting
  readonly now: Moment
  readonly saves: Saves
  readonly cover: Saves
}

/** What of an Outcome the compiled kernel fills. */
export interface Answered {
  saved: number
  savedByBlock: number
  readonly byRegion: Float64Array
}

/**
 * One thread's compiled kernel: the meeting of a path with every part and the saving reactions, bit for bit as the files
 * beside this folder give them. It holds one goalie met, and the postures that were asked for last; who asks next brings what
 * is missing.
 */
export interface CompiledKernel {
  readonly code: CompiledCode
  /** Whose puck is in its memory, and which of that meeting's goalies. */
  meeting: Meeting | null
  count: number
  /** Bytes that its memory may grow to before it is cleared of all postures. */
  readonly room: number
  /** Where the next posture goes; a name for all that came since there was room for none. */
  free: number
  cleared: object
  views: Views
}

/** Its memory, by what stands there; made anew when the memory grows. */
interface Views {
  readonly moment: Float64Array
  readonly turn: Float64Array
  readonly frame: Float64Array
  readonly path: Float64Array
  readonly timeline: Float64Array
  readonly saves: Found
  readonly cover: Found
  readonly outcome: Float64Array
  readonly disc: Float64Array
  /** What is known of the parts, see MET_… */
  readonly met: DataView
}

/** Stretches as the compiled kernel leaves them. */
interface Found {
  /** How many, and whether one is certain. */
  readonly head: Int32Array
  readonly lo: Float64Array
  readonly hi: Float64Array
  readonly when: Float64Array
  readonly region: Uint8Array
  readonly limb: Uint8Array
}

export function compiledKernel(code: CompiledCode): CompiledKernel {
  writeNormalTable(new Float64Array(code.memory.buffer, layout.NORMAL, NORMAL_TABLE_LENGTH))
  return {
    code,
    meeting: null,
    count: -1,
    room: MOST_BYTES,
    free: layout.POSTURES,
    cleared: {},
    views: viewsOf(code.memory.buffer),
  }
}

/** Whether the compiled kernel has room for postures of so many key phases and parts. */
export function fitsCompiled(phases: number, count: number): boolean {
  return phases <= layout.MOST_PHASES && count <= layout.MOST_PARTS
}

function viewsOf(buffer: ArrayBuffer): Views {
  return {
    moment: new Float64Array(buffer, layout.MOMENT, layout.MOMENT_LENGTH),
    turn: new Float64Array(buffer, layout.TURN, 1),
    frame: new Float64Array(buffer, layout.FRAME, FRAME_LENGTH),
    path: new Float64Array(buffer, layout.PATH, PATH_STRIDE),
    timeline: new Float64Array(buffer, layout.TIMELINE, TIMELINE_PIECES),
    saves: foundAt(buffer, layout.SAVES),
    cover: foundAt(buffer, layout.COVER),
    outcome: new Float64Array(buffer, layout.OUTCOME, layout.OUTCOME_NUMBERS),
    disc: new Float64Array(buffer, layout.DISC_RADIUS, 2),
    met: new DataView(buffer, layout.MET_PARTS, layout.MOST_PARTS * layout.MET_STRIDE),
  }
}

function foundAt(buffer: ArrayBuffer, at: number): Found {
  const most = layout.MOST_STRETCHES
  return {
    head: new Int32Array(buffer, at, 2),
    lo: new Float64Array(buffer, at + layout.STRETCH_LO, most),
    hi: new Float64Array(buffer, at + layout.STRETCH_HI, most),
    when: new Float64Array(buffer, at + layout.STRETCH_WHEN, most),
    region: new Uint8Array(buffer, at + layout.STRETCH_REGION, most),
    limb: new Uint8Array(buffer, at + layout.STRETCH_LIMB, most),
  }
}

/** The same as collectSaves in answer.ts. */
export function collectCompiled(
  keeper: Keeper,
  kernel: CompiledKernel,
  prepared: PreparedPosture,
  path: Float64Array,
  offset: number,
): void {
  kernel.code.collectSaves(handIn(keeper, kernel, prepared, path, offset))
  takeBack(keeper, kernel, kernel.views.saves, keeper.saves)
}

/** The same as collectCover in answer.ts. */
export function coverCompiled(
  keeper: Keeper,
  kernel: CompiledKernel,
  prepared: PreparedPosture,
  path: Float64Array,
  offset: number,
): void {
  kernel.code.collectCover(handIn(keeper, kernel, prepared, path, offset))
  takeBack(keeper, kernel, kernel.views.cover, keeper.cover)
}

/**
 * The same as decideConditional does once the shot is faced: block or reaction weighed, `numbers` the pose's. What is left in
 * hand is the same too, but for the cover of a block.
 */
export function decideCompiled(
  keeper: Keeper,
  kernel: CompiledKernel,
  prepared: PreparedPosture,
  numbers: Float64Array,
  path: Float64Array,
  offset: number,
  outcome: Answered,
): void {
  const place = handIn(keeper, kernel, prepared, path, offset)
  const { moment, outcome: found, saves } = kernel.views
  const { now } = keeper
  moment[layout.MOMENT_MEDIAN] = numbers[REACTION_MEDIAN]!
  moment[layout.MOMENT_SPREAD] = numbers[REACTION_SPREAD]!
  moment[layout.MOMENT_BLOCK_SHARE] = now.blockShare
  moment[layout.MOMENT_DRAWN_LEAD] = now.drawnLead
  moment[layout.MOMENT_REACT_PHASE] = now.reactPhase
  kernel.code.decide(place)
  outcome.saved = found[OUTCOME_SAVED]!
  outcome.savedByBlock = found[OUTCOME_BY_BLOCK]!
  const { byRegion } = outcome
  for (let region = 0; region < byRegion.length; region++) byRegion[region] = found[OUTCOME_BY_REGION + region]!
  now.blockLead = moment[layout.MOMENT_BLOCK_LEAD]!
  now.lastPhase = moment[layout.MOMENT_LAST_PHASE]!
  takeBack(keeper, kernel, saves, keeper.saves)
}

/**
 * Hands in what the kernel has to know: the posture, another goalie met, and the moment. Returns where the posture lies.
 */
function handIn(
  keeper: Keeper,
  kernel: CompiledKernel,
  prepared: PreparedPosture,
  path: Float64Array,
  offset: number,
): number {
  const place = placeOf(kernel, prepared)
  const { meeting, now } = keeper
  if (kernel.meeting !== meeting) bringPuck(keeper, kernel)
  if (kernel.count !== meeting.count) bringGoalie(kernel, meeting, now, path, offset)
  const out = kernel.views.moment
  out[layout.MOMENT_READ] = now.read
  out[layout.MOMENT_DROP_LEAD] = now.dropLead
  out[layout.MOMENT_DROP_TIME] = now.dropTime
  out[layout.MOMENT_LAST_PHASE] = now.lastPhase
  out[layout.MOMENT_LONGEST_LEAD] = now.longestLead
  out[layout.MOMENT_BLOCK_LEAD] = now.blockLead
  out[layout.MOMENT_LEAKS] = now.leaks ? 1 : 0
  out[layout.MOMENT_FROZEN] = now.frozen ? 1 : 0
  out[layout.MOMENT_STANDS] = now.stands ? 1 : 0
  for (let limb = 0; limb < LIMBS.length; limb++) out[MOMENT_ERRORS + limb] = now.draws[now.errors + limb]!
  return place
}

/** The puck of another scene. */
function bringPuck({ meeting, scene }: Keeper, kernel: CompiledKernel): void {
  const { disc } = kernel.views
  disc[0] = scene.world[PUCK_RADIUS]!
  disc[1] = scene.world[PUCK_HALF_THICKNESS]!
  kernel.meeting = meeting
  kernel.count = -1
}

/** Where a posture stands in the kernel's memory; it is brought there when it is not. */
function placeOf(kernel: CompiledKernel, prepared: PreparedPosture): number {
  const { kept } = prepared
  if (kept.since !== kernel.cleared) bringPosture(kernel, prepared)
  return kept.at
}

function bringPosture(kernel: CompiledKernel, prepared: PreparedPosture): void {
  const bytes = bytesOf(prepared)
  if (kernel.free + bytes > kernel.room) {
    kernel.cleared = {}
    kernel.free = layout.POSTURES
  }
  const { memory } = kernel.code
  const lacks = kernel.free + bytes - memory.buffer.byteLength
  if (lacks > 0) {
    memory.grow(Math.ceil(Math.max(lacks, MORE_BYTES) / layout.PAGE_BYTES))
    kernel.views = viewsOf(memory.buffer)
  }
  writePosture(memory.buffer, kernel.free, prepared)
  prepared.kept.since = kernel.cleared
  prepared.kept.at = kernel.free
  kernel.free += bytes
}

/** The goalie met: frame, path and, where the motion is uneven, the timeline. */
function bringGoalie(kernel: CompiledKernel, meeting: Meeting, now: Moment, path: Float64Array, offset: number): void {
  const { views } = kernel
  kernel.count = meeting.count
  views.turn[0]!++
  for (let i = 0; i < FRAME_LENGTH; i++) views.frame[i] = meeting.frame[i]!
  const length = PATH_PIECES + PIECE_STRIDE * path[offset + PATH_COUNT]!
  for (let i = 0; i < length; i++) views.path[i] = path[offset + i]!
  const { way } = meeting
  views.moment[layout.MOMENT_UNEVEN] = way === null ? 0 : 1
  views.moment[layout.MOMENT_BEGINS] = now.begins
  if (way === null) return
  copyTimeline(way, views.timeline)
}

/** The pieces that a timeline has, each where it stands. */
function copyTimeline(way: Float64Array, out: Float64Array): void {
  const { PATH, PATH_COUNT, PATH_STRIDE, TURN, TURN_COUNT, TURN_STRIDE } = timelineColumns
  const pathEnds = PATH + PATH_STRIDE * way[PATH_COUNT]!
  for (let i = 0; i < pathEnds; i++) out[i] = way[i]!
  const turnEnds = TURN + TURN_STRIDE * way[TURN_COUNT]!
  for (let i = TURN; i < turnEnds; i++) out[i] = way[i]!
}

/** Takes back the stretches found, and whether the body stops the puck as it stands. */
function takeBack({ now }: Keeper, { views }: CompiledKernel, found: Found, saves: Saves): void {
  now.stands = views.moment[MOMENT_STANDS] !== 0
  const count = found.head[0]!
  saves.count = count
  saves.certain = found.head[1] !== 0
  for (let i = 0; i < count; i++) {
    saves.lo[i] = found.lo[i]!
    saves.hi[i] = found.hi[i]!
    saves.when[i] = found.when[i]!
    saves.region[i] = found.region[i]!
    saves.limb[i] = found.limb[i]!
  }
}

/** When the puck is level with a part, s on the path's clock; NaN where the part was not met. */
export function timeMetCompiled(kernel: CompiledKernel, part: number): number {
  const { met, turn } = kernel.views
  const at = part * layout.MET_STRIDE
  const state = met.getInt32(at + layout.MET_STATE, true)
  if (met.getFloat64(at + layout.MET_TURN, true) !== turn[0] || (state !== MET && state !== MET_BY_REACH))
    return Number.NaN
  return met.getFloat64(at + LEVEL_TIME * Float64Array.BYTES_PER_ELEMENT, true)
}
