import { percent, plain } from "../report/words.ts"
import { headlineOf } from "./headline.ts"
import { reboundRows } from "./rebound.ts"
import type { Row } from "./row.ts"
import { blockRows, passRows, reactionRows } from "./save-rows.ts"
import { stepRows } from "./step-rows.ts"
import type { OpenedStory, ReleaseStory, StandStory, Story } from "./story.ts"
import { cm, feetAndInches, joinAnd, placeText, side, span } from "./words.ts"

/** A part of a story under its title. */
export interface Section {
  readonly title: string
  readonly rows: readonly Row[]
}

/** A story in words: title line, verdict, then the parts in order. */
export interface Telling {
  readonly title: string
  readonly headline: string
  readonly sections: readonly Section[]
}

/** A story as a coach reads it. */
export function tellingOf(story: Story): Telling {
  const { point, verdict } = story
  const which = `${point.baseline ? "baseline, " : ""}point ${point.number} of ${point.of}`
  const sections = [
    { title: "The shot", rows: shotRows(story) },
    { title: "The goalie", rows: goalieRows(story) },
    { title: "Step by step, from the release", rows: stepRows(story) },
    { title: "The rebound", rows: story.rebound === null ? [] : reboundRows(story.rebound) },
    { title: "As the puck went by", rows: passRows(story) },
    { title: "Which starts of the block cover it", rows: blockRows(story) },
    { title: "Which reactions save it", rows: reactionRows(story) },
  ]
  return {
    title: `Shot ${story.shot} of ${story.experiment}, ${point.name} (${which}), seed ${story.seed}`,
    headline: headlineOf(story),
    // nothing of the shot is to be told where there is none
    sections: verdict.outcome === "no shot" ? [] : sections.filter(({ rows }) => rows.length > 0),
  }
}

function shotRows(story: Story): Row[] {
  const { release, weight } = story
  const { aim } = release
  const rows = [
    { label: "from", text: fromText(release) },
    { label: "how", text: howText(release) },
    {
      label: "aimed at",
      text: `${aim.zone}, ${placeText(aim.yCm, aim.heightCm)}${release.unreachable ? ", the nearest within reach" : ""}`,
    },
  ]
  const counted = Math.abs(weight - 1) < 0.005
  if (!counted)
    rows.push({
      label: "counts",
      text: `${plain(weight, 2)} times at this point, where it is played or aimed ${weight > 1 ? "more" : "less"} often than on the average of the points that share the shot`,
    })
  return rows
}

function fromText({ spot, distanceM, distanceFt, angleDegrees, heightCm }: ReleaseStory): string {
  const angle =
    Math.abs(angleDegrees) < 0.5
      ? "straight out"
      : `${plain(Math.abs(angleDegrees), 0)}° to the goalie's ${side(angleDegrees)}`
  const height = heightCm < 2.5 ? "" : `, ${cm(heightCm)} off the ice`
  return `${spot === "" ? "" : `${spot}: `}${plain(distanceM, 1)} m (${feetAndInches(distanceFt)}) from the middle of the goal line, ${angle}${height}`
}

function howText({ hurried, shotType, speedKmH, speedMph }: ReleaseStory): string {
  const type =
    shotType === "by distance" ? "shot (the usual mix from there)" : `${shotType} shot`.replace("tip shot", "tip")
  const kind = type.replace("one-timer shot", "one-timer")
  return `${hurried ? "hurried" : "aimed"} ${kind}, ${plain(speedKmH, 0)} km/h (${plain(speedMph, 0)} mph) at the release`
}

function goalieRows({ stand, standing }: Story): Row[] {
  if (stand === null) return [{ label: "", text: "The net is empty." }]
  const rows = [
    { label: "depth", text: depthText(stand) },
    { label: "place", text: offText(stand) },
    {
      label: "covers",
      text: `${percent(stand.netCovered, 0)} of the net as the puck sees it; ${stanceText(stand)}`,
    },
  ]
  if (stand.opened !== null) rows.push({ label: "open", text: openText(stand.opened) })
  if (standing === null) return rows
  const still = standing.stops
    ? `Standing still would stop it: the ${standing.part}, ${cm(standing.byCm)} inside the edge`
    : standing.byCm === 0
      ? `Standing still would not stop it: the puck squeezes by the ${standing.part}`
      : `Standing still would not stop it: nearest is the ${standing.part}, ${cm(standing.byCm)} away`
  return [...rows, { label: "still", text: still }]
}

function stanceText({ stance, hands }: StandStory): string {
  return `stance ${stance}${hands === "stance" ? "" : `, hands ${hands}`}`
}

/** What the movement has opened: "by the T-push, 63 % of the way: five-hole and feet 9 cm wider, …". */
function openText({ by, share, legsCm, handsCm, bladeCm, leanDegrees, downForMs }: OpenedStory): string {
  const knees = downForMs === null ? "" : `on the knees, going down since ${span(downForMs)} before the release; `
  if (share === 0) return `${knees}sealed again after the ${by}`
  const changes = [
    [legsCm, `${downForMs === null ? "five-hole and feet" : "five-hole"} ${cm(Math.abs(legsCm))} wider`],
    [handsCm, `gloves ${cm(Math.abs(handsCm))} further ${handsCm > 0 ? "out" : "in"}`],
    [bladeCm, `blade ${cm(Math.abs(bladeCm))} off the ice`],
    [leanDegrees, `trunk ${plain(Math.abs(leanDegrees), 1)}° further ${leanDegrees > 0 ? "forward" : "back"}`],
  ] as const
  const open = changes.filter(([size]) => Math.abs(size) >= 0.05).map(([, text]) => text)
  const how = open.length === 0 ? "nothing opened" : joinAnd(open)
  return `${knees}by the ${by}, ${percent(share, 0)} of the way: ${how}`
}

function depthText({ depthM, askedM, cut }: StandStory): string {
  const asked = Math.abs(depthM - askedM) < 0.005 ? "" : `, asked for ${plain(askedM, 2)} m`
  return `${plain(depthM, 2)} m${asked}${cut ? "; cut, as the puck was too near" : ""}`
}

function offText({ offLineCm, turnedDegrees, notSet }: StandStory): string {
  const off =
    Math.abs(offLineCm) < 0.5
      ? "on the line to the puck"
      : `${cm(Math.abs(offLineCm))} ${side(offLineCm)} of the line to the puck`
  const set = notSet ? "; not set" : ""
  const square = Math.abs(turnedDegrees) < 0.05
  return `${off}, ${square ? "square to it" : `turned ${plain(Math.abs(turnedDegrees), 1)}° to the ${side(turnedDegrees)} of it`}${set}`
}
