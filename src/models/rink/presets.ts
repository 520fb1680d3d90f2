import type { Metres } from "../../sim/units.ts"
import type { Crease, Rink } from "./rink.ts"

/** A sheet of a rule book, with the source key of each group of its marks. */
export interface RinkPreset extends Rink {
  readonly sources: Readonly<Record<"sheet" | "lines" | "spots" | "crease" | "trapezoid", string>>
  /** What the sheet is and where the books leave room, in one sentence. */
  readonly why: string
}

const NORTH_AMERICAN_CREASE: Crease = {
  shape: "straight sides",
  radius: 1.8288,
  halfWidth: 1.2192,
  markOut: 1.2192,
  markLength: 0.127,
}

const NORTH_AMERICAN: RinkPreset = {
  length: 60.96,
  width: 25.908,
  cornerRadius: 8.5344,
  boardsHeight: 1.0668,
  goalLineToBoards: 3.3528,
  // the book gives the neutral-side edge, 64 ft
  blueLine: 19.5072 - 0.1524,
  blueWidth: 0.3048,
  lineWidth: 0.0508,
  endSpot: { x: 6.096, y: 6.7056 },
  neutralSpot: { x: 21.0312, y: 6.7056 },
  spotDiameter: 0.6096,
  circleRadius: 4.572,
  hashGap: 1.8034,
  hashLength: 0.6096,
  crease: NORTH_AMERICAN_CREASE,
  trapezoid: { goalLineHalf: 3.3528, boardsHalf: 4.2672 },
  sources: { sheet: "ECHL2021", lines: "WHL2019", spots: "ECHL2021", crease: "ECHL2021", trapezoid: "ECHL2021" },
  why: "North American sheet of 200 by 85 ft with 64-ft end zones and the straight-sided crease.",
}

const INTERNATIONAL: RinkPreset = {
  length: 60,
  width: 30,
  cornerRadius: 8.5,
  boardsHeight: 1.07,
  goalLineToBoards: 4,
  blueLine: 18.86,
  blueWidth: 0.3,
  lineWidth: 0.05,
  endSpot: { x: 6, y: 7 },
  neutralSpot: { x: 20.36, y: 7 },
  spotDiameter: 0.6,
  circleRadius: 4.5,
  hashGap: 1.7,
  hashLength: 0.6,
  // length of the marks: 13 cm from memory, a drawing library prints 20 cm
  crease: { shape: "straight sides", radius: 1.83, halfWidth: 1.22, markOut: 1.22, markLength: 0.13 },
  trapezoid: { goalLineHalf: 3.4, boardsHalf: 4.3 },
  sources: {
    sheet: "IIHF2023",
    lines: "IIHFDrawing2014",
    spots: "SwedishFacilities2022",
    crease: "CreaseReport2018",
    trapezoid: "IIHF2023",
  },
  why: "International sheet of 60 by 30 m; the crease is from a report of its change in 2018, not from the book itself.",
}

/** Sheets by name, for `rink.preset`. */
export const RINK_PRESETS = {
  "north-american": NORTH_AMERICAN,
  "north-american-60": {
    ...NORTH_AMERICAN,
    blueLine: 18.288 - 0.1524,
    neutralSpot: { x: 18.288 + 1.524, y: 6.7056 },
    sources: { ...NORTH_AMERICAN.sources, lines: "NHLRulesOnline", spots: "ECHL2021" },
    why: "North American sheet with the older 60-ft end zones; neutral spots 5 ft beyond the blue line.",
  },
  "north-american-half-circle": {
    ...NORTH_AMERICAN,
    crease: { shape: "half circle", radius: 1.8288, halfWidth: 1.8288, markOut: 1.2192, markLength: 0.127 },
    sources: { ...NORTH_AMERICAN.sources, crease: "QMJHL2021" },
    why: "North American sheet with the half-circle crease of 6 ft and L marks, as one junior book still prints it.",
  },
  international: INTERNATIONAL,
  "international-26": {
    ...INTERNATIONAL,
    width: 26,
    cornerRadius: 7,
    why: "International sheet at its least width, 26 m; spots and lines stay where they are.",
  },
  "international-2014": {
    ...INTERNATIONAL,
    crease: { shape: "half circle", radius: 1.8, halfWidth: 1.8, markOut: 1.22, markLength: 0.15 },
    trapezoid: null,
    sources: { ...INTERNATIONAL.sources, crease: "IIHFCrease2014" },
    why: "International sheet of 2014 to 2018 with the half-circle crease of 1.80 m.",
  },
  college: {
    ...NORTH_AMERICAN,
    cornerRadius: 6.096,
    trapezoid: null,
    sources: { sheet: "NCAA2021", lines: "NCAA2021", spots: "NCAA2021", crease: "NCAA2021", trapezoid: "NCAA2021" },
    why: "College sheet as the book prefers it; it allows a range of places for goal line and blue line.",
  },
} as const satisfies Record<string, RinkPreset>

export type RinkName = keyof typeof RINK_PRESETS
export const RINK_NAMES = Object.keys(RINK_PRESETS) as readonly RinkName[]

/** What the college book leaves open [NCAA2021]: goal line 10 to 15 ft from the boards, blue line at least 60 ft out. */
export const COLLEGE_RANGES = {
  goalLineToBoards: { least: 3.048, most: 4.572, preferred: 3.3528 },
  blueLineFarEdge: { least: 18.288, preferred: 19.5072 },
} as const

/**
 * International sheet of a shorter rink [FIN2014]: from 58 m up the blue line stays 22.86 m from the end boards, below
 * that it moves in proportion to the length, and the neutral spots with it, 1.5 m beyond.
 */
export function shortInternational(length: Metres): RinkPreset {
  const fromBoards = length < 58 ? (length * 22.86) / 60 : 22.86
  const blueLine = fromBoards - INTERNATIONAL.goalLineToBoards
  return {
    ...INTERNATIONAL,
    length,
    blueLine,
    neutralSpot: { x: blueLine + 1.5, y: INTERNATIONAL.neutralSpot.y },
    sources: { ...INTERNATIONAL.sources, lines: "FIN2014" },
    why: "International sheet of a shorter rink, blue line and neutral spots moved as a national notice says.",
  }
}

/** International layout of equal thirds before 2014, from memory: blue line at a third of the 52 m between goal lines. */
export function equalThirds(): RinkPreset {
  const blueLine = 52 / 3
  return {
    ...INTERNATIONAL,
    blueLine,
    neutralSpot: { x: blueLine + 1.5, y: INTERNATIONAL.neutralSpot.y },
    sources: { ...INTERNATIONAL.sources, lines: "assumption", spots: "assumption" },
    why: "International sheet of equal thirds before 2014; the layout is from memory.",
  }
}
