import { loadKernel } from "../../src/experiments/kernel/load.ts"
import {
  blockNow,
  collectCover,
  collectSaves,
  faceShot,
  type Goalkeeping,
  goalkeeping,
  preparedNow,
  reactNow,
  standForShot,
  timeMet,
} from "../../src/sim/answer.ts"
import type { CompiledKernel } from "../../src/sim/compiled/kernel.ts"
import { decideConditional, emptyOutcome } from "../../src/sim/conditional.ts"
import { isOnGoal } from "../../src/sim/fate.ts"
import { PATH_STRIDE } from "../../src/sim/path.ts"
import * as P from "../../src/sim/pose.ts"
import type { SeedKey } from "../../src/sim/random/streams.ts"
import type { Saves } from "../../src/sim/saves.ts"
import { makeShots, type ShotBatch, shotBatch } from "../../src/sim/shots.ts"

/** The compiled kernel of the last build. */
export function builtKernel(): CompiledKernel {
  const kernel = loadKernel()
  if (kernel === null)
    throw new Error("Cannot compare the kernels as the compiled one must be built: run npm run build")
  return kernel
}

/** What was compared: how often a shot met a goalie, which kinds were among them, and where the kernels parted. */
export interface Compared {
  shots: number
  blocks: number
  leaks: number
  uneven: number
  unset: number
  tipped: number
  unevenAndTipped: number
  stretches: number
  /** The first difference of each shot, in words. */
  readonly apart: string[]
}

export function nothingCompared(): Compared {
  return { shots: 0, blocks: 0, leaks: 0, uneven: 0, unset: 0, tipped: 0, unevenAndTipped: 0, stretches: 0, apart: [] }
}

/** Lets the goalies of a scene answer a batch of shots with both kernels, and adds what they say to `to`. */
export function compareKernels(
  scene: P.Scene,
  kernel: CompiledKernel,
  key: SeedKey,
  shots: number,
  to: Compared,
): void {
  const batch = shotBatch(scene, shots)
  makeShots(scene, key, 0, 0, shots, batch)
  const [typescript, compiled] = [goalkeeping(scene), goalkeeping(scene, kernel)]
  for (let i = 0; i < shots; i++) {
    if (!isOnGoal(batch.fate[i]!)) continue
    for (const [p, pose] of scene.poses.entries()) {
      if (pose.numbers[P.ANSWER] === P.ANSWER_ABSENT) continue
      const [expected, found] = [answers(typescript, pose, batch, i), answers(compiled, pose, batch, i)]
      count(typescript, pose, to)
      const at = expected.findIndex((value, k) => !Object.is(value, found[k]))
      if (at >= 0 || expected.length !== found.length)
        to.apart.push(`shot ${i}, pose ${p}, number ${at}: ${expected[at]} and ${found[at]}`)
    }
  }
}

/** Which kinds of goalies met which kinds of shots. */
function count(g: Goalkeeping, pose: P.Pose, to: Compared): void {
  to.shots++
  if (g.now.blockShare > 0) to.blocks++
  if (g.now.leaks) to.leaks++
  if (g.now.begins > 0) to.tipped++
  if (g.meeting.way !== null) to.uneven++
  if (g.meeting.way !== null && g.now.begins > 0) to.unevenAndTipped++
  if (preparedNow(g, pose) !== g.prepared[pose.posture]) to.unset++
  to.stretches += g.saves.count
}

/** Every number that one shot leaves: the answer, then the stretches of a reaction, of a block's start, and of a block. */
function answers(g: Goalkeeping, pose: P.Pose, batch: ShotBatch, i: number): number[] {
  const path = i * PATH_STRIDE
  const outcome = emptyOutcome()
  standForShot(g, pose, batch, i)
  decideConditional(g, pose, batch, i, path, outcome)
  const { saved, savedByBlock, stood, blocked, byRegion } = outcome
  const told = [saved, savedByBlock, stood, blocked, ...byRegion]
  standForShot(g, pose, batch, i)
  faceShot(g, pose, batch, i, path)
  const prepared = preparedNow(g, pose)
  reactNow(g.now)
  collectSaves(g, prepared, batch.path, path)
  told.push(...numbersOf(g.saves), g.now.stands ? 1 : 0)
  // the same goalie met, asked once more
  collectCover(g, prepared, batch.path, path)
  told.push(...numbersOf(g.cover))
  blockNow(g.now)
  collectSaves(g, prepared, batch.path, path)
  told.push(...numbersOf(g.saves), g.now.stands ? 1 : 0)
  for (let part = 0; part < prepared.posture.count; part++) told.push(timeMet(g, part))
  return told
}

function numbersOf(saves: Saves): number[] {
  const told = [saves.count, saves.certain ? 1 : 0]
  for (let i = 0; i < saves.count; i++)
    told.push(saves.lo[i]!, saves.hi[i]!, saves.when[i]!, saves.region[i]!, saves.limb[i]!)
  return told
}
