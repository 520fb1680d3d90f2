import { boxOfPlay, puckEyeOf } from "../../models/positioning/box-of.ts"
import { reachOf } from "../../models/positioning/reach-of.ts"
import type { Settings } from "../../models/settings.ts"
import type { CompiledKernel } from "../../sim/compiled/kernel.ts"
import type { MouthGrid } from "../../sim/mouth-grid.ts"
import type { SeedKey } from "../../sim/random/streams.ts"
import type { Sampler } from "../../sim/sampler.ts"
import type { OpenNetCurve, PuckEyePanel, ReachMapPicture } from "../results.ts"
import { type OpenNetShares, openNetCurve, openNetShares } from "./open-net.ts"

/** Places of the mouth at which milliseconds to spare are printed. */
const SPARE_COLUMNS = 7
const SPARE_ROWS = 4
/** Cells of a reach map. */
const REACH_COLUMNS = 44
const REACH_ROWS = 30

/** What a thread has for it: where the few shots come from that the open net during a move is measured over, and its kernel. */
export interface GeometryTools {
  readonly key: SeedKey
  readonly sampler: Sampler
  readonly compiled: CompiledKernel | null
}

/** What is found of one design point beside its shots, by the name it is asked for by. Structured-clone safe. */
export interface Geometry {
  /** Measures of geometry by key: no sampling, no interval. */
  readonly measures: Readonly<Record<string, number>>
  readonly panel: Omit<PuckEyePanel, "title" | "subtitle">
  /** With the speed of the shot, m/s. */
  readonly map: Omit<ReachMapPicture, "title" | "subtitle"> & { readonly speed: number }
  /** The same with chances of a save, which take several times as long. */
  readonly "map with chances": Geometry["map"]
  /** The open net while the goalie moves; null in a play without a move. */
  readonly openNet: OpenNetShares
  readonly openNetCurve: OpenNetCurve | null
}

/** How each is found. */
export const GEOMETRY: {
  readonly [Kind in keyof Geometry]: (settings: Settings, tools: GeometryTools) => Geometry[Kind]
} = {
  measures: (settings) => ({ ...boxOfPlay(settings) }),
  panel: panelOf,
  map: (settings, { compiled }) => mapOf(settings, false, compiled),
  "map with chances": (settings, { compiled }) => mapOf(settings, true, compiled),
  openNet: (settings, { key, sampler }) => openNetShares(settings, key, sampler),
  openNetCurve: (settings, { key, sampler }) => openNetCurve(settings, key, sampler),
}

function panelOf(settings: Settings, { compiled }: GeometryTools): Geometry["panel"] {
  const seen = puckEyeOf(settings)
  const empty = settings.choices["play.goalie"] === "none"
  const reach = empty ? null : reachOf(settings, SPARE_COLUMNS, SPARE_ROWS, false, compiled)
  return {
    ...seen,
    spare:
      reach === null
        ? []
        : cellsOf(reach.grid, (cell, y, z) => ({ y, z, milliseconds: asMilliseconds(reach.spare[cell]!) })).filter(
            (_, cell) => reach.clear[cell] === 1,
          ),
  }
}

function mapOf(settings: Settings, withChances: boolean, compiled: CompiledKernel | null): Geometry["map"] {
  const { grid, shot, clear, spare, probability } = reachOf(settings, REACH_COLUMNS, REACH_ROWS, withChances, compiled)
  const rows = <Value>(value: (cell: number) => Value): Value[][] =>
    Array.from({ length: grid.rows }, (_, row) =>
      Array.from({ length: grid.columns }, (_, column) => value(row * grid.columns + column)),
    )
  return {
    speed: shot.speed,
    y: Array.from(grid.y.subarray(1), (edge, i) => 0.5 * (edge + grid.y[i]!)),
    z: Array.from(grid.z.subarray(1), (edge, i) => 0.5 * (edge + grid.z[i]!)),
    milliseconds: rows((cell) => (spare[cell] === Infinity ? Infinity : asMilliseconds(spare[cell]!))),
    ...(withChances ? { probability: rows((cell) => probability[cell]!) } : {}),
    clear: rows((cell) => clear[cell] === 1),
    cell: grid.y[1]! - grid.y[0]!,
  }
}

/** Seconds to spare in whole milliseconds; null where no reaction saves, Infinity where the stance covers. */
function asMilliseconds(seconds: number): number | null {
  return seconds === -Infinity ? null : seconds === Infinity ? Infinity : Math.round(seconds * 1000)
}

function cellsOf<Value>(grid: MouthGrid, value: (cell: number, y: number, z: number) => Value): Value[] {
  return Array.from({ length: grid.columns * grid.rows }, (_, cell) => {
    const column = cell % grid.columns
    const row = (cell - column) / grid.columns
    return value(cell, 0.5 * (grid.y[column]! + grid.y[column + 1]!), 0.5 * (grid.z[row]! + grid.z[row + 1]!))
  })
}
