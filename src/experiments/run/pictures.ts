import type { Experiment } from "../experiment.ts"
import { OPEN_NET_KEYS } from "../measures.ts"
import type { AnglePicture, OpenNetPicture, PlanPicture, PuckEyePanel, ReachMapPicture } from "../results.ts"
import { anglePicturesOf } from "./angle-pictures.ts"
import type { Geometry } from "./geometry.ts"
import type { Group } from "./groups.ts"
import { type OpenNetLine, openNetLines } from "./open-net-points.ts"
import { picturePoints, poseText, puckText } from "./picture-points.ts"
import { plansOf } from "./plan-pictures.ts"
import type { Pool } from "./pool.ts"

/** Panels of the puck's-eye picture, and reach maps, drawn for one run at most. */
const MOST_PANELS = 6
const MOST_REACH_MAPS = 4

/** The pictures of a run that hang on no shot. */
export interface Pictures {
  readonly puckEye: PuckEyePanel[]
  readonly reachMaps: ReachMapPicture[]
  readonly plans?: PlanPicture[]
  readonly angles?: AnglePicture[]
  readonly openNets?: OpenNetPicture[]
}

/** Asks for the geometry of one design point. */
type Ask = <Kind extends keyof Geometry>(kind: Kind, index: number) => Promise<Geometry[Kind]>

/** Measures of every point that need no shot, shared out among the threads. */
export function measuresOf(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
): Promise<Geometry["measures"][]> {
  const ask = askGeometry(groups, pool)
  return Promise.all(experiment.points.map(({ index }) => ask("measures", index)))
}

/** The open net of every point during the move, a box at every instant of many shots: only where the file lists it. */
export async function openNetsOf(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
): Promise<Geometry["openNet"][]> {
  if (!experiment.measures.some((key) => OPEN_NET_KEYS.includes(key))) return []
  const ask = askGeometry(groups, pool)
  return Promise.all(experiment.points.map(({ index }) => ask("openNet", index)))
}

/** Asks the pool for the geometry of design points by their index. */
function askGeometry(groups: readonly Group[], pool: Pool): Ask {
  const places = new Map(groups.flatMap(({ points }, group) => points.map((point, pose) => [point, { group, pose }])))
  return (kind, index) => pool.geometry({ ...places.get(index)!, kind })
}

/** What a caller may want of the pictures, and when it hears of them. */
interface Wishes {
  readonly pictures?: boolean
  readonly probability?: boolean
  readonly onPictures?: (pictures: Pictures) => void
}

/**
 * The pictures of geometry that the file asks for, of points spread over the run, shared out among the threads: asked for
 * before the shots, handed over when they are there. A failure is met where they are waited for.
 */
export function picturesOf(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
  wishes: Wishes,
): Promise<Pictures> {
  const finding = findPictures(experiment, groups, pool, wishes).then((pictures) => {
    wishes.onPictures?.(pictures)
    return pictures
  })
  finding.catch(() => {})
  return finding
}

async function findPictures(
  experiment: Experiment,
  groups: readonly Group[],
  pool: Pool,
  options: Wishes,
): Promise<Pictures> {
  if (options.pictures === false) return { puckEye: [], reachMaps: [] }
  const ask = askGeometry(groups, pool)
  const withChances = options.probability === true
  const wants = (kind: string) => (experiment.charts as readonly string[]).includes(kind)
  const panels = wants("puck's eye") ? picturePoints(experiment, MOST_PANELS) : []
  const maps = wants("reach map") ? picturePoints(experiment, MOST_REACH_MAPS) : []
  const lines = wants("open net") ? openNetLines(experiment) : []
  const [puckEye, reachMaps, openNets] = await Promise.all([
    Promise.all(panels.map((index) => panelOf(experiment, index, ask))),
    Promise.all(maps.map((index) => mapOf(experiment, index, ask, withChances))),
    Promise.all(lines.map((line) => openNetOf(line, ask))),
  ])
  return {
    puckEye,
    reachMaps,
    ...(wants("angle error") ? { angles: anglePicturesOf(experiment) } : {}),
    ...(wants("open net") ? { openNets: openNets.filter((picture) => picture !== null) } : {}),
    ...(wants("plan view") ? { plans: plansOf(experiment) } : {}),
  }
}

async function openNetOf(line: OpenNetLine, ask: Ask): Promise<OpenNetPicture | null> {
  const curve = await ask("openNetCurve", line.index)
  return curve === null ? null : { ...line, ...curve }
}

async function panelOf(experiment: Experiment, index: number, ask: Ask): Promise<PuckEyePanel> {
  const subtitle = puckText(experiment.points[index]!)
  return { title: poseText(experiment, index), subtitle, ...(await ask("panel", index)) }
}

async function mapOf(experiment: Experiment, index: number, ask: Ask, withChances: boolean): Promise<ReachMapPicture> {
  const { speed, ...map } = await ask(withChances ? "map with chances" : "map", index)
  const subtitle = `shot at ${(speed * 3.6).toFixed(0)} km/h, ${puckText(experiment.points[index]!)}`
  return { title: poseText(experiment, index), subtitle, ...map }
}
