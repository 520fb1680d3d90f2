import { isMap, isScalar, isSeq } from "yaml"
import type { Origin } from "../../models/plays/origin.ts"
import type { Metres } from "../../sim/units.ts"
import { keysOf, PLACE_FIELDS } from "../grammar.ts"
import { pathFrom, readTextFile } from "./file.ts"
import { partsOf } from "./flatten.ts"
import type { Problem } from "./problem.ts"
import { fail, readQuantity, readText } from "./setting.ts"
import { type Found, itemsOf, placeOf, scalarText, show } from "./source.ts"
import { ANGLE, DISTANCE, polarSpot, SPOT_RULE, spotIsPlayable } from "./spot.ts"
import { readSpotsFile } from "./spots-file.ts"

/** The keys that make each kind of place. */
const SHAPES = {
  polar: ["distance", "angle"],
  point: ["x", "y"],
  polygon: ["corners"],
  wedge: ["nearest", "farthest", "from", "to"],
} as const
type Shape = keyof typeof SHAPES

const MOST_PLACES = 10_000
/** x and y may be as large as a distance, to either side for y. */
const OUTWARD = { dimension: "length", least: 0, most: DISTANCE.most } as const
const SIDEWAYS = { dimension: "length", least: -DISTANCE.most, most: DISTANCE.most } as const

/** Reads `play.from`: a list of places, one place, or the name of a CSV file of spots. */
export function readOrigins(found: Found, problems: Problem[]): Origin[] | null {
  if (isScalar(found.node) && scalarText(found) !== null) return readNamedFile(found, problems)
  const places = isMap(found.node) ? [found] : itemsOf(found)
  if (!isSeq(found.node) && !isMap(found.node)) return failPlaces(found, problems)
  if (places.length === 0 || places.length > MOST_PLACES) return failPlaces(found, problems)
  const origins = places.map((place, i) => readPlace(place, `place ${i + 1}`, problems))
  if (origins.some((origin) => origin === null)) return null
  return weighed(found, origins as Origin[], problems)
}

function readNamedFile(found: Found, problems: Problem[]): Origin[] | null {
  const path = pathFrom(found.source.folder, scalarText(found)!)
  const text = readTextFile(path, { place: placeOf(found), key: found.key }, problems)
  const origins = text === null ? null : readSpotsFile(path, text, problems)
  return origins === null ? null : weighed(found, origins, problems)
}

function failPlaces(found: Found, problems: Problem[]): null {
  const rule = `a list of 1 to ${MOST_PLACES.toLocaleString("en-US")} places, or a CSV file of spots`
  return fail(found, problems, { kind: "bad spot", key: found.key, rule, current: show(found) })
}

function weighed(found: Found, origins: Origin[], problems: Problem[]): Origin[] | null {
  if (origins.some((origin) => origin.weight > 0)) return origins
  const rule = "places of which at least one has a weight above 0"
  return fail(found, problems, { kind: "bad spot", key: found.key, rule, current: "only weights of 0" })
}

function readPlace(place: Found, defaultLabel: string, problems: Problem[]): Origin | null {
  if (!isMap(place.node)) {
    const rule = "a mapping such as { distance: 8 m, angle: 20 deg }"
    return fail(place, problems, { kind: "bad spot", key: place.key, rule, current: show(place) })
  }
  const parts = partsOf(place, keysOf(PLACE_FIELDS), problems)
  const shape = shapeOf(place, parts, problems)
  const labelFound = parts.get("label")
  const label = labelFound === undefined ? defaultLabel : readText(labelFound, problems)
  const weightFound = parts.get("weight")
  const limits = { dimension: "number", least: 0, most: 1e9 } as const
  const weight = weightFound === undefined ? 1 : (readQuantity(weightFound, limits, problems)?.value ?? null)
  return shape === null || label === null || weight === null
    ? null
    : readShape(place, shape, parts, { label, weight }, problems)
}

function shapeOf(place: Found, parts: ReadonlyMap<string, Found>, problems: Problem[]): Shape | null {
  const given = [...parts.keys()].filter((key) => key !== "label" && key !== "weight")
  const match = (Object.keys(SHAPES) as Shape[]).find(
    (shape) => SHAPES[shape].length === given.length && SHAPES[shape].every((key) => parts.has(key)),
  )
  if (match !== undefined) return match
  const rule = "distance and angle, or x and y, or corners, or nearest, farthest, from and to"
  const current = given.length === 0 ? "none of them" : given.join(", ")
  return fail(place, problems, { kind: "bad spot", key: place.key, rule, current })
}

interface Named {
  readonly label: string
  readonly weight: number
}

function readShape(
  place: Found,
  shape: Shape,
  parts: ReadonlyMap<string, Found>,
  named: Named,
  problems: Problem[],
): Origin | null {
  switch (shape) {
    case "polar": {
      const distance = readQuantity(parts.get("distance")!, DISTANCE, problems)
      const angle = readQuantity(parts.get("angle")!, ANGLE, problems)
      if (distance === null || angle === null) return null
      return polarSpot(named.label, named.weight, distance.value, angle.value)
    }
    case "point": {
      const x = readQuantity(parts.get("x")!, OUTWARD, problems)
      const y = readQuantity(parts.get("y")!, SIDEWAYS, problems)
      if (x === null || y === null) return null
      const current = `(${scalarText(parts.get("x")!)}, ${scalarText(parts.get("y")!)})`
      if (!spotIsPlayable(x.value, y.value)) {
        return fail(place, problems, { kind: "bad spot", key: place.key, rule: SPOT_RULE, current })
      }
      return { kind: "spot", ...named, x: x.value, y: y.value }
    }
    case "polygon": {
      const corners = readCorners(parts.get("corners")!, problems)
      return corners === null ? null : { kind: "polygon", ...named, corners }
    }
    case "wedge":
      return readWedge(place, parts, named, problems)
  }
}

function readCorners(found: Found, problems: Problem[]): [Metres, Metres][] | null {
  const corners = itemsOf(found)
  if (corners.length < 3) {
    const rule = "a list of at least three corners, each [x, y]"
    return fail(found, problems, { kind: "bad spot", key: found.key, rule, current: show(found) })
  }
  const read = corners.map((corner): [Metres, Metres] | null => {
    const pair = itemsOf(corner)
    if (pair.length !== 2) {
      const rule = "a pair such as [8 m, -2 m]"
      return fail(corner, problems, { kind: "bad spot", key: found.key, rule, current: show(corner) })
    }
    const x = readQuantity(pair[0]!, OUTWARD, problems)
    const y = readQuantity(pair[1]!, SIDEWAYS, problems)
    return x === null || y === null ? null : [x.value, y.value]
  })
  if (read.some((corner) => corner === null)) return null
  if (areaOf(read as [Metres, Metres][]) > 1e-6) return read as [Metres, Metres][]
  return fail(found, problems, { kind: "bad spot", key: found.key, rule: "a polygon with an area", current: "a line" })
}

function areaOf(corners: readonly (readonly [Metres, Metres])[]): number {
  let twice = 0
  for (const [i, [x, y]] of corners.entries()) {
    const [nextX, nextY] = corners[(i + 1) % corners.length]!
    twice += x * nextY - nextX * y
  }
  return Math.abs(twice) / 2
}

function readWedge(place: Found, parts: ReadonlyMap<string, Found>, named: Named, problems: Problem[]): Origin | null {
  const nearest = readQuantity(parts.get("nearest")!, DISTANCE, problems)?.value
  const farthest = readQuantity(parts.get("farthest")!, DISTANCE, problems)?.value
  const from = readQuantity(parts.get("from")!, ANGLE, problems)?.value
  const to = readQuantity(parts.get("to")!, ANGLE, problems)?.value
  if (nearest === undefined || farthest === undefined || from === undefined || to === undefined) return null
  if (nearest <= farthest && from <= to) return { kind: "wedge", ...named, nearest, farthest, from, to }
  const rule = "a wedge from nearest up to farthest and from one angle up to the other"
  return fail(place, problems, { kind: "bad spot", key: place.key, rule, current: "the other way round" })
}
