import { percent, plain } from "../report/words.ts"
import type { Row } from "./row.ts"
import type { FlightStory, LimbStart, PlayBefore, ReadingStory, Story, VerdictStory } from "./story.ts"
import { trafficEvents } from "./traffic.ts"
import { cm, joinAnd, ms, partDoes, placeText, side } from "./words.ts"

/** One thing that happens, and when. */
interface Event {
  readonly at: number
  readonly text: string
}

/** Everything that happens, in order. */
export function stepRows(story: Story): Row[] {
  const { reading, flight, verdict } = story
  if (verdict.outcome === "no shot") return []
  const over = overAt(story)
  const events: Event[] = story.traffic === null ? [] : trafficEvents(story.traffic)
  if (story.traffic === null || story.traffic.tippedAfterMs === null)
    events.push({ at: 0, text: `the puck leaves the stick${movingText(story.before)}` })
  if (story.before !== null) events.push(...legEvents(story.before), ...wayEvents(story.before, over))
  if (reading !== null)
    events.push(
      ...readingEvents(reading, story.traffic?.seenMs ?? 0, over),
      ...limbEvents(story.limbs, reading, flight, over),
    )
  events.push(...flightEvents(flight, verdict, over))
  if (verdict.outcome === "save" && verdict.by !== null && over !== Infinity)
    events.push({ at: over, text: `${partDoes(verdict.by.part, "stops", "stop")} the puck` })
  return events.sort((a, b) => a.at - b.at).map(({ at, text }) => ({ label: `${plain(at, 0)} ms`, text }))
}

/** When the puck is stopped or past the goal line. */
function overAt({ verdict, passes, flight }: Story): number {
  const saver = verdict.outcome === "save" ? passes.find(({ part }) => part === verdict.by?.part) : undefined
  return saver?.timeMs ?? flight.atLine?.timeMs ?? Infinity
}

/** How a goalie who is still on the way is caught by the shot. */
function movingText(before: PlayBefore | null): string {
  if (before === null || before.speedAtReleaseMS < 0.05) return ""
  return `, the goalie moving at ${plain(before.speedAtReleaseMS, 1)} m/s`
}

/** What the puck does before the shot. The last arrival is left out where the shot follows at once. */
function legEvents({ legs }: PlayBefore): Event[] {
  return legs.flatMap(({ does, startMs, endMs, speedMS, toXM, toYM, goalieOutM, goalieSpeedMS }) => {
    const speed = `${plain(speedMS, 0)} m/s`
    const to = `${plain(Math.hypot(toXM, toYM), 1)} m out, ${bearingText(toXM, toYM)}`
    const text = {
      pass: `the pass leaves the passer's stick, ${speed} on the way`,
      carry: `the puck is carried, ${speed}, to ${to}`,
      cut: `the puck is pulled aside, ${speed}, to ${to}`,
    }[does]
    const moves = goalieSpeedMS < 0.05 ? "standing still" : `moving at ${plain(goalieSpeedMS, 1)} m/s`
    const goalie = `the goalie ${plain(goalieOutM, 1)} m out, ${moves}`
    const there = { pass: "the pass arrives", carry: `the carry ends, ${goalie}`, cut: "the puck is there" }[does]
    const starts = { at: startMs, text }
    return endMs < 0 ? [starts, { at: endMs, text: there }] : [starts]
  })
}

function bearingText(x: number, y: number): string {
  const degrees = (Math.atan2(y, x) * 180) / Math.PI
  if (Math.abs(degrees) < 0.5) return "straight ahead"
  return `${plain(Math.abs(degrees), 0)}° to the goalie's ${side(degrees)}`
}

/** The goalie's way to the shot. */
function wayEvents({ firstMoveMs, setMs, onAngleMs }: PlayBefore, over: number): Event[] {
  const events: [number | null, string][] = [
    [firstMoveMs, "the goalie leaves the set stance"],
    [onAngleMs, "on the line to the new place of the puck"],
    [setMs, "set again"],
  ]
  return events.flatMap(([at, text]) =>
    at === null ? [] : [{ at, text: at > over ? `the goalie would have been ${text}` : text }],
  )
}

function readingEvents(reading: ReadingStory, seenMs: number, over: number): Event[] {
  const { answer, readFromMs, handsStartMs, dropStartMs, dropEndMs, dropShare } = reading
  if (answer === "frozen") return [{ at: 0, text: "the goalie stays frozen" }]
  const events: Event[] = []
  // a puck that comes into sight late is told of with the traffic
  if (readFromMs > seenMs) events.push({ at: readFromMs, text: "not set, the goalie reads the shot only from here" })
  if (readFromMs < 0) events.push({ at: readFromMs, text: "the release can be read: the reaction runs from here" })
  const blocked = answer === "block"
  const share = blocked ? ` (${percent(reading.blockShare, 0)} of shots this quick are blocked)` : ""
  const high = dropShare < 1 ? `, ${percent(dropShare, 0)} of a whole drop as the puck comes high` : ""
  if (dropStartMs !== null)
    events.push({
      at: dropStartMs,
      text: reading.slides
        ? "the slide takes the goalie down"
        : `the drop starts${blocked ? `, a block${share}` : high}`,
    })
  if (handsStartMs !== null && handsStartMs > over)
    events.push({ at: handsStartMs, text: `the hands would start, too late: a ${reactionText(reading)}` })
  if (dropEndMs !== null && dropEndMs <= over)
    events.push({ at: dropEndMs, text: dropShare < 1 ? "the drop stops" : "down in the butterfly" })
  if (reading.squeezes)
    events.push({ at: 0, text: "this is one of the few pucks that squeeze through a part that covers them" })
  return events
}

function reactionText({ reactionMs, medianReactionMs }: ReadingStory): string {
  return `reaction of ${ms(reactionMs)}, where this goalie's usual one is ${ms(medianReactionMs)}`
}

/** Limbs that start together share a line; those that would start after the end are left out. */
function limbEvents(
  limbs: readonly LimbStart[],
  reading: ReadingStory,
  { atBody }: FlightStory,
  over: number,
): Event[] {
  const times = [...new Set(limbs.map(({ startMs }) => startMs))].filter((time) => time <= over)
  return times.map((at) => {
    const names = limbs.filter(({ startMs }) => startMs === at).map(({ limb }) => limb)
    const past = atBody !== null && at > atBody.timeMs ? ", with the puck past the body" : ""
    const move = `${joinAnd(names)} ${names.length > 1 ? "begin" : "begins"} to move${past}`
    return { at, text: at === reading.handsStartMs ? `${move}: a ${reactionText(reading)}` : move }
  })
}

function flightEvents({ iceTouches, atBody, atLine }: FlightStory, verdict: VerdictStory, over: number): Event[] {
  const events: Event[] = iceTouches.map(({ timeMs, fromGoalLineM, hops }) => ({
    at: timeMs,
    text: `the puck touches the ice ${plain(fromGoalLineM, 1)} m out and ${hops ? "hops" : "slides on"}`,
  }))
  if (atBody !== null)
    events.push({ at: atBody.timeMs, text: `the puck is level with the goalie, ${heightText(atBody.heightCm)}` })
  if (atLine !== null)
    events.push({
      at: atLine.timeMs,
      text: `${lineText(verdict)} ${placeText(atLine.yCm, atLine.heightCm)}, ${plain(atLine.speedKmH, 0)} km/h, ${cm(atLine.offAimCm)} from where it was aimed`,
    })
  return verdict.outcome === "save" ? events.filter(({ at }) => at <= over || at === atLine?.timeMs) : events
}

/** What happens at the goal line. */
function lineText({ outcome, iron }: VerdictStory): string {
  if (outcome === "save") return "would cross the goal line"
  if (outcome === "miss") return "passes the goal line"
  return iron === null ? "crosses the goal line" : `hits the ${iron.which}:`
}

function heightText(heightCm: number): string {
  return heightCm < 2.5 ? "along the ice" : `${plain(heightCm, 0)} cm up`
}
