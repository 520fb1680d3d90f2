import { plain, pointText } from "../report/words.ts"
import type { PlanPicture, RunResults } from "../results.ts"
import { type Chart, questionOf, type Spec } from "./chart.ts"
import { COLOURS, FONT_STACK, TEXT, WIDTH } from "./look.ts"
import { path, text } from "./mouth.ts"
import { GAP, MARGIN, panelHeads, panelPage } from "./panel-grid.ts"
import { creaseView, iceView } from "./plan-drawing.ts"
import { TIMELINE_HEIGHT, timelineMarks } from "./plan-timeline.ts"

/** Width of a row, and the most its two drawings may be high, px. */
const ROOM = WIDTH - 2 * MARGIN
const HIGHEST = 430

/** The play from above: the whole ice it takes, the crease enlarged, and the times of puck and goalie beneath. */
export function planViewChart(results: RunResults): Chart | null {
  const plans = results.plans ?? []
  if (plans.length === 0) return null
  const heads = panelHeads(
    plans.map((plan) => ({ title: plan.title, subtitle: plan.subtitle, facts: factsOf(plan) })),
    ROOM,
  )
  const width = 0.5 * (ROOM - GAP)
  const ices = plans.map((plan) => iceView(plan, width, HIGHEST))
  const creases = plans.map((plan) => creaseView(plan, width, HIGHEST))
  const high = Math.max(...ices.map(({ height }) => height), ...creases.map(({ height }) => height))
  const panels = plans.map((plan, at) => ({
    marks: [
      ...heads.marks[at]!,
      placed(0, heads.height + high - ices[at]!.height, ices[at]!.marks),
      placed(width + GAP, heads.height + high - creases[at]!.height, creases[at]!.marks),
      placed(0, heads.height + high + 18, timelineMarks(plan.course, ROOM)),
    ],
  }))
  return panelPage({
    name: "plan-view",
    question: questionOf(results.experiment),
    subtitles: [
      `The play from above as it usually goes, ${results.experiment.goalieName} in the net`,
      ...shownText(results, plans),
    ],
    description: plans.map((plan) => `${plan.title}: ${factsOf(plan)}`).join("; "),
    panels,
    size: { width: ROOM, height: heads.height + high + 18 + TIMELINE_HEIGHT },
    columns: 1,
    footer: { marks: keyMarks(), height: 44 },
  })
}

/** Which points and branches of their plays are drawn, where not all are. */
function shownText({ experiment }: RunResults, plans: readonly PlanPicture[]): string[] {
  const firsts = [...new Map(plans.map((plan) => [plan.index, plan])).values()]
  const ways = firsts.reduce((sum, plan) => sum + plan.ways, 0)
  const of = experiment.points.length
  const names = firsts.map(({ index }) => pointText(experiment, index)).join("; ")
  const points = firsts.length < of ? `${firsts.length} of ${of} points: ${names}` : ""
  const branches = plans.length < ways ? `${plans.length} of the ${ways} ways their plays go, the usual ones first` : ""
  const parts = [points, branches].filter((part) => part !== "")
  return parts.length === 0 ? [] : [parts.join(" · ")]
}

/** What the picture shows, in words: where the goalie is at the release, moving or set. */
function factsOf({ course }: PlanPicture): string {
  const release = course.goalie.findLast(({ at }) => at <= 0)!
  const depth = Math.hypot(release.x, release.y)
  const lasts = course.legs.length === 0 ? "" : `${plain(-course.legs[0]!.starts, 2)} s from the start to the release, `
  const set =
    course.setAgain === null
      ? "the goalie set throughout"
      : course.setAgain <= 0
        ? `set ${plain(-1000 * course.setAgain, 0)} ms before it`
        : `set ${plain(1000 * course.setAgain, 0)} ms too late`
  return `${lasts}the goalie then ${plain(depth, 2)} m out, ${set}`
}

function placed(x: number, y: number, marks: readonly Spec[]): Spec {
  return { type: "group", encode: { update: { x: { value: x }, y: { value: y } } }, marks }
}

/** What each kind of line means. */
function keyMarks(): Spec[] {
  const kinds = [
    { name: "carried", dash: [] as number[], wide: 3 },
    { name: "passed", dash: [9, 6], wide: 3 },
    { name: "shot", dash: [2, 4], wide: 3 },
  ]
  const lines = kinds.flatMap(({ name, dash, wide }, at) => {
    const x = at * 128
    return [
      path(`M${x},22L${x + 44},22`, { stroke: COLOURS.ink, strokeWidth: wide, strokeDash: dash }),
      text(name, { x: x + 54, y: 27, font: FONT_STACK, fontSize: TEXT.small }),
    ]
  })
  const goalie = "goalie: dashed at the start, filled at the release; bar: not set"
  return [...lines, text(goalie, { x: 3 * 128, y: 27, font: FONT_STACK, fontSize: TEXT.small })]
}
