import { expect, test } from "vitest"
import { answerShot, standForShot } from "../../src/sim/answer.ts"
import { decideConditional, emptyOutcome } from "../../src/sim/conditional.ts"
import { isOnGoal } from "../../src/sim/fate.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import * as P from "../../src/sim/pose.ts"
import { sampleLognormal } from "../../src/sim/random/lognormal.ts"
import { decidePlain } from "../../src/sim/referee.ts"
import { engine } from "../../src/sim/sampling.ts"
import { stretchAt } from "../../src/sim/saves.ts"
import { DRAW_REACTION, GOALIE_DRAWS, makeShots } from "../../src/sim/shots.ts"
import { compileScene, KEY, playing } from "./scenes.ts"

const BATCH = 256
const BATCHES = 2
/** Share of shots on which the two may differ: see below. */
const KNIFE_EDGE = 0.02

/** What the two ways to one shot say of the same shots. */
interface Compared {
  readonly shots: number
  /** Stopped by the referee alone, and by the solved stretches alone, the reaction being the drawn one for both. */
  readonly byReferee: number
  readonly byStretches: number
  /** Saves of the referee less the conditional probabilities, and the variance that this sum has by the drawn reactions. */
  readonly excess: number
  readonly variance: number
}

function compare(distance: number, answer: string): Compared {
  const settings = playing({ "play.distance": distance, "goalie.depth": 1.1 }, { "goalie.answer": answer })
  const scene = compileScene([settings])
  const { goalkeeping: g, batch, outcome } = engine(scene, BATCH)
  const plain = emptyOutcome()
  const pose = scene.poses[0]!
  const { [P.REACTION_MEDIAN]: median, [P.REACTION_SPREAD]: spread } = pose.numbers
  let [shots, byReferee, byStretches, excess, variance] = [0, 0, 0, 0, 0]
  for (let b = 0; b < BATCHES; b++) {
    makeShots(scene, KEY, 0, BATCH * b, BATCH, batch)
    for (let i = 0; i < BATCH; i++) {
      if (!isOnGoal(batch.fate[i]!)) continue
      const path = i * PATH_STRIDE
      standForShot(g, pose, batch, i)
      decideConditional(g, pose, batch, i, path, outcome)
      decidePlain(g, pose, batch, i, path, plain)
      answerShot(g, pose, batch, i, path)
      const start = sampleLognormal(batch.goalie[i * GOALIE_DRAWS + DRAW_REACTION]!, median!, spread!) - g.now.read
      const solved = stretchAt(g.saves, start) >= 0 ? 1 : 0
      shots++
      if (plain.saved > solved) byReferee++
      if (plain.saved < solved) byStretches++
      excess += plain.saved - outcome.saved
      variance += outcome.saved * (1 - outcome.saved)
    }
  }
  return { shots, byReferee, byStretches, excess, variance }
}

// seed KEY, n = 512 shots, some 400 on goal. The drawn reaction decides for both, so that they part only where a margin is
// all but nothing, since the referee steps and takes the path as it bends: 3 shots in 1,000 measured. Two in 100 of 400 are
// then six standard errors off, and a drop that starts 80 ms late on one side parts them on 5 to 8 in 100. What is left
// over leans to neither side: |z| < 4. So does the sum of saves less probabilities, whose variance is p (1 - p) a shot.
// Seen to fail: the drop's lead left out of the referee, or of what the falling body covers. Left out of what the limbs
// carry alone it parts them on 1 in 100 and is not told from the knife's edge.
test.each([
  [4, "react"],
  [6, "react"],
  [5, "by distance"],
] as const)(
  "shot by shot the referee stops what the solved reactions say it stops, from %d m, %s",
  (distance, answer) => {
    const { shots, byReferee, byStretches, excess, variance } = compare(distance, answer)
    expect(shots).toBeGreaterThan(300)
    const differ = byReferee + byStretches
    expect(differ / shots).toBeLessThan(KNIFE_EDGE)
    expect(Math.abs(byReferee - byStretches)).toBeLessThanOrEqual(4 * Math.sqrt(differ))
    expect(Math.abs(excess)).toBeLessThan(4 * Math.sqrt(variance))
  },
)
