import { percent } from "../report/words.ts"
import type { Row } from "./row.ts"
import type { LimbStory, PassStory, Story } from "./story.ts"
import { carriedText, cm, ms } from "./words.ts"

/** Most parts told of. */
const MOST_PARTS = 5

/** The parts that stopped the puck or that it passed nearest. */
export function passRows({ passes }: Story): Row[] {
  return passes
    .slice(0, MOST_PARTS)
    .map((pass) => ({ label: pass.part, text: `${ms(pass.timeMs)}, ${passText(pass)}` }))
}

function passText({ clearanceCm, insideCm, stops, limb }: PassStory): string {
  if (insideCm !== null) {
    const where = `the puck is ${cm(insideCm)} inside the edge`
    return stops ? `in the way: ${where}` : `in the way, but the puck squeezes through: ${where}`
  }
  const away = `${cm(clearanceCm)} away`
  if (limb === null) return away
  return `${away}${limbText(limb, stops, clearanceCm)}`
}

const OUT_OF_REACH = {
  "wrong side": "on the wrong side for the",
  "arm too short": "beyond the arm's length for the",
  "too far": "too far for the",
} as const
/** The placement error is told of once a limb has done this share of its way: before that it says nothing. */
const WELL_ON_ITS_WAY = 0.5

function limbText(limb: LimbStory, stops: boolean, clearanceCm: number): string {
  const { state, marginCm } = limb
  if (state === "not started") return `; the ${limb.limb} has not begun to move`
  if (state !== "in reach") return `, ${OUT_OF_REACH[state]} ${limb.limb}`
  const placed = limb.movedCm < WELL_ON_ITS_WAY * limb.wayToGoCm ? "" : `, placed ${cm(limb.placementErrorCm)} off`
  const done = `the ${limb.limb} has come ${cm(limb.movedCm)} of its ${cm(limb.wayToGoCm)}${placed}`
  // an error larger than the way come says that the limb is nowhere yet, not that it is farther off
  const short = -(marginCm ?? Infinity)
  if (!stops && short > clearanceCm) return `; ${done}`
  return `; ${done}: ${stops ? `there with ${cm(-short)} to spare` : `${cm(short)} short`}`
}

/** The reactions that save, each stretch with what stops the puck and how likely it is. */
export function reactionRows({ reactions, reading }: Story): Row[] {
  if (reactions === null || reading === null) return []
  const { saving, probability, countedProbability } = reactions
  if (reading.answer === "frozen")
    return [
      { label: "", text: `The goalie does not move; the body ${probability > 0 ? "covers" : "does not cover"} it.` },
    ]
  const rows = saving.map((one) => ({
    label: windowText(one.reactionFromMs, one.reactionToMs),
    text: `${one.region}, ${carriedText(one.limb)}: ${shareText(one.probability)} of this goalie's reactions${startText(one.fromMs, one.toMs)}${one.drawn ? "; this shot's is one" : ""}`,
  }))
  const all =
    saving.length === 0 ? "No reaction saves this shot" : `${shareText(probability)} of reactions save this shot`
  const blocks = reading.blockShare > 0
  const counted = `; the run counts ${shareText(countedProbability)}, over ${reading.blockShare < 1 ? "block and reaction and " : ""}every lead of a block`
  return [...rows, { label: "together", text: `${all}${blocks ? counted : ""}` }]
}

/** A share that tells nearly all from all, and nearly none from none. */
function shareText(share: number): string {
  if (share > 0.9999999) return "100 %"
  if (share > 0.9995) return "over 99.9 %"
  return share > 0 && share < 0.0005 ? "less than 0.1 %" : percent(share)
}

/** The starts of a block that cover the path. */
export function blockRows({ block, reading }: Story): Row[] {
  if (block === null || reading === null) return []
  const { covering, coveredShare, earliestMs } = block
  const rows = covering.map(({ fromMs, toMs, region }) => ({
    label: `${windowText(fromMs, toMs)}`,
    text: `${region}, covering${reading.dropStartMs! > fromMs && reading.dropStartMs! <= toMs ? "; this shot's is one" : ""}`,
  }))
  const all = `${shareText(coveredShare)} of starts, from ${ms(earliestMs)} to the release, cover the path`
  return [...rows, { label: "together", text: covering.length === 0 ? "No start of the block covers the path" : all }]
}

function windowText(from: number | null, to: number | null): string {
  if (from === null) return to === null ? "any" : `up to ${ms(to)}`
  return to === null ? `over ${ms(from)}` : `${ms(from).replace(" ms", "")} to ${ms(to)}`
}

function startText(from: number | null, to: number | null): string {
  if (from === null && to === null) return ""
  if (from === null) return ` (hands started by ${ms(to!)})`
  return to === null
    ? ` (hands started after ${ms(from)})`
    : ` (hands started ${ms(from).replace(" ms", "")} to ${ms(to)})`
}
