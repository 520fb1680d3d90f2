import { openReplay } from "../dist/experiments/replay/replay.js"
import { tellingOf } from "../dist/experiments/replay/sections.js"
import { tellShot } from "../dist/experiments/replay/tell.js"
import { interleaved, timed } from "./clock.mjs"
import { table } from "./markdown.mjs"
import { QUESTIONS, questionOf } from "./questions.mjs"

/** Shots that are told in one measurement. */
const SHOTS = 16

/** Seconds to open a run of each question, and to tell one of its shots: one of another batch, and one of that in hand. */
export function replayStage(rounds) {
  const names = Object.keys(QUESTIONS)
  const times = interleaved(names.flatMap(tellingJobs), rounds)
  return names.map((question, i) => {
    const [opening, another, inHand] = times.slice(3 * i, 3 * i + 3)
    return { question, opening, another: another / SHOTS, inHand: inHand / SHOTS }
  })
}

function tellingJobs(question) {
  const experiment = questionOf(question)
  const replay = openReplay(experiment, experiment.baseline)
  // other shots in each measurement
  let index = 0
  const next = () => {
    index = (index + 1) % replay.plan.batch
    return index
  }
  return [
    () => timed(() => openReplay(experiment, experiment.baseline)),
    () => timed(() => tellEach((shot) => tell(replay, shot % replay.plan.replicates, index))),
    () => timed(() => tellEach(() => tell(replay, 0, next()))),
  ]
}

function tellEach(one) {
  for (let shot = 0; shot < SHOTS; shot++) one(shot)
}

/** One shot's story: its numbers, and how a coach reads it. */
export function tell(replay, replicate, index) {
  const story = tellShot(replay, { replicate, index })
  return { story, telling: tellingOf(story) }
}

/** What the stage found, as a section of a page of Markdown. */
export function replaySection(rows) {
  const ms = (seconds) => (1e3 * seconds).toPrecision(3)
  return `## One shot told again

A shot of a run as data and in words, without pictures: means over ${SHOTS} shots, on goal or not, in a thread that is warm. A
shot is fired with its batch, unless that is the one in hand.

${table(
  [
    "question",
    "a shot of another batch, ms",
    "a shot of the batch in hand, ms",
    "opening the run before the first, ms",
  ],
  rows.map(({ question, another, inHand, opening }) => [question, ms(another), ms(inHand), ms(opening)]),
)}`
}
