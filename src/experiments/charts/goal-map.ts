import { percentWithInterval, plain } from "../report/words.ts"
import type { GoalMapPicture, RunResults } from "../results.ts"
import { type Chart, questionOf, type Spec } from "./chart.ts"
import { COLOURS, FONT_STACK, GOAL_RAMP, TEXT } from "./look.ts"
import { cellMarks, ironMarks, type MouthScale, mouthScale, path, text, textOnPaper } from "./mouth.ts"
import { gridOf, MOST_PANELS, panelHeads, panelPage } from "./panel-grid.ts"
import { rampOf } from "./ramp.ts"
import { mouthOf } from "./reach-map.ts"

const LINE = 26

/** Where goals went in, one panel for each map; null when the run has none. */
export function goalMapChart(results: RunResults): Chart | null {
  const maps = results.goalMaps.slice(0, MOST_PANELS)
  if (maps.length === 0) return null
  const { columns, width } = gridOf(maps.length)
  const most = Math.max(...maps.flatMap((map) => map.share.flat()))
  const heads = panelHeads(
    maps.map(({ title, subtitle }) => ({ title, subtitle, facts: "" })),
    width,
  )
  const drawings = maps.map((map, at) => drawMap(map, { width, most, head: heads.marks[at]!, top: heads.height }))
  const lines = maps.map(
    (map) => `${map.title}: ${map.zones.map(({ zone, share }) => `${zone} ${percentWithInterval(share)}`).join(", ")}`,
  )
  return panelPage({
    name: "goal-map",
    question: questionOf(results.experiment),
    subtitles: [
      `Where goals went in past ${results.experiment.goalieName}, as the puck sees the goal · darkest: ${plain(most * 100, 1)} % of all goals in one cell`,
      "dashed: where the zones part · listed: share of all goals in each zone with its interval",
    ],
    description: `Share of goals by zone of the mouth. ${lines.join(". ")}.`,
    panels: drawings,
    size: { width, height: Math.max(...drawings.map(({ height }) => height)) },
    columns,
  })
}

interface MapRoom {
  readonly width: number
  /** Share of goals in the fullest cell of all maps. */
  readonly most: number
  readonly head: readonly Spec[]
  readonly top: number
}

function drawMap(map: GoalMapPicture, { width, most, head, top }: MapRoom): { marks: readonly Spec[]; height: number } {
  const mouth = mouthOf(map)
  const scale = mouthScale(mouth, width)
  const colour = rampOf(GOAL_RAMP)
  const cells = cellMarks(map, scale, (row, column) => colour(most > 0 ? map.share[row]![column]! / most : 0))
  const printed = map.zones.flatMap(({ share, at }) =>
    at === undefined ? [] : zoneNumber(`${plain(share.mean * 100, 0)} %`, scale.x(at[0]), scale.y(at[1])),
  )
  const below = top + scale.height + 22
  const zones = map.zones.toSorted((a, b) => b.share.mean - a.share.mean)
  const columns = width > 600 ? 2 : 1
  const perColumn = Math.ceil(zones.length / columns)
  const list = zones.flatMap(({ zone, share }, at) => {
    const x = Math.floor(at / perColumn) * (width / 2)
    const y = below + (at % perColumn) * LINE
    const look = { font: FONT_STACK, fontSize: TEXT.label, y }
    return [text(zone, { ...look, x }), text(percentWithInterval(share), { ...look, x: x + 165, fontWeight: 600 })]
  })
  return {
    marks: [
      ...head,
      {
        type: "group",
        encode: { update: { y: { value: top } } },
        marks: [cells, ...partingMarks(map, scale), ...ironMarks(mouth, scale), ...printed],
      },
      ...list,
    ],
    height: below + (perColumn - 1) * LINE + 8,
  }
}

/** Where the zones part: low from high, and both sides from the middle. */
function partingMarks({ parting, y, z, cell }: GoalMapPicture, scale: MouthScale): Spec[] {
  if (parting === undefined) return []
  const [left, right, top] = [y[0]! - cell / 2, y.at(-1)! + cell / 2, z.at(-1)! + cell / 2]
  const line = (fromY: number, fromZ: number, toY: number, toZ: number): string =>
    `M${scale.x(fromY)},${scale.y(fromZ)}L${scale.x(toY)},${scale.y(toZ)}`
  const upright = [-parting.middle, parting.middle].map((side) => line(side, 0, side, top))
  const outline = [line(left, parting.height, right, parting.height), ...upright].join("")
  return [path(outline, { stroke: COLOURS.quietInk, strokeWidth: 1.4, strokeDash: [6, 5], fill: "transparent" })]
}

function zoneNumber(label: string, x: number, y: number): Spec[] {
  const look = { align: "center", baseline: "middle", font: FONT_STACK, fontSize: TEXT.title, fontWeight: 700 }
  return textOnPaper(label, { ...look, x, y }, COLOURS.ice)
}
