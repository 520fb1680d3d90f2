import type { Story, VerdictStory } from "./story.ts"
import { carriedText, cm, partDoes, placeText, span } from "./words.ts"

/** What became of the shot, in a sentence or two. */
export function headlineOf(story: Story): string {
  const { verdict } = story
  const edge = verdict.knifeEdge ? " Measured part by part it is too near to call." : ""
  switch (verdict.outcome) {
    case "save":
      return `Save: ${saveText(story)}.${edge}`
    case "goal":
      return `Goal, ${goalText(verdict)}. ${beatenText(story)}${edge}`.trim()
    case "iron, out":
      return `Off the ${verdict.iron?.which ?? "iron"} and out.`
    case "short":
      return "Short: the puck stops on the ice before the goal line."
    case "miss":
      return missText(verdict)
    case "blocked":
      return "Blocked: someone on its way stops the puck."
    case "no shot":
      return "No shot: a pass is missed or cut off."
  }
}

function saveText({ verdict, block }: Story): string {
  const { by, byCm, byMs } = verdict
  if (by === null) return "stopped"
  const length = cm(byCm ?? 0)
  if (by.limb === null) {
    const lead = typeof block?.byMs === "number" ? `; the block began with ${span(block.byMs)} to spare` : ""
    const time = byMs === null ? `whatever the reaction${lead}` : `with ${span(byMs)} to spare`
    return `${partDoes(by.part, "is", "are")} in the way, the puck ${length} inside the edge, ${time}`
  }
  const time = byMs === null ? "" : ` and ${span(byMs)}`
  return `the ${by.part}, ${carriedText(by.limb)}, ${by.part.endsWith("s") ? "stop" : "stops"} it with ${length}${time} to spare`
}

function goalText({ goal, iron }: VerdictStory): string {
  if (goal === null) return ""
  const off = goal.offIron ? ` in off the ${iron?.which ?? "iron"}` : ""
  return `${goal.zone}${off} (${placeText(goal.yCm, goal.heightCm)})`
}

/** Reactions rarer than this are hardly ever seen. */
const HARDLY_EVER = 0.005

function beatenText({ verdict, reading, reactions, block }: Story): string {
  const { by, byCm, byMs, way } = verdict
  if (by === null) return "Nobody is in the net."
  const limb = by.limb === null ? `the ${by.part}` : `the ${by.part}, ${carriedText(by.limb)},`
  const nearest = `Nearest was ${limb} ${cm(byCm ?? 0)} away`
  if (reading?.answer === "frozen") return `${nearest}.`
  const causes: string[] = []
  if (block !== null && block.byMs !== null && block.way !== null)
    causes.push(`a block begun ${span(block.byMs)} ${block.way === "late" ? "sooner" : "later"} would have covered it`)
  if (byMs === null)
    causes.push(causes.length > 0 ? "no reaction would have reached it" : "no reaction would have saved it")
  else if ((reactions?.probability ?? 0) >= HARDLY_EVER) causes.push(`the hands started ${span(byMs)} too ${way}`)
  else
    causes.push(
      `hands ${span(byMs)} ${way === "late" ? "sooner" : "later"}, which this goalie hardly ever has, would have saved it`,
    )
  return `${nearest}; ${causes.join(", and ")}.`
}

function missText({ iron }: VerdictStory): string {
  if (iron === null) return "Misses: it never comes to the goal line."
  const by = iron.byCm === null ? "" : ` by ${cm(iron.byCm)}`
  return iron.which === "crossbar" ? `Misses over the bar${by}.` : `Misses wide of the ${iron.which}${by}.`
}
