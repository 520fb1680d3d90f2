import type { Checkpoint } from "./checkpoint.ts"
import type { Pool } from "./pool.ts"
import type { Share } from "./shares.ts"

/** A pool whose shares are kept, and what to call once the last is asked for. */
export interface KeptShares {
  readonly pool: Pool
  readonly seal: (always: boolean) => Promise<void>
}

/**
 * Keeps the shares that a sensitivity asks for, in the order in which it asks: those that an earlier run had found are
 * answered at once.
 */
export function keptShares(pool: Pool, checkpoint: Checkpoint | undefined): KeptShares {
  const answers: Share[] = foundShares(checkpoint)
  let known = answers.length
  let asked = 0
  // of answers that come in any order, those up to the first that is missing
  const arrays = () => answers.slice(0, known).flatMap(({ above, below }) => [above, below])
  const share: Pool["share"] = async (task) => {
    const at = asked++
    if (at < answers.length && answers[at] !== undefined) return answers[at]
    const answer = await pool.share(task)
    answers[at] = answer
    while (answers[known] !== undefined) known++
    checkpoint?.keep("sensitivity", { known, replicates: task.replicates }, arrays)
    return answer
  }
  const replicates = () => answers[0]?.above.length ?? 0
  return {
    pool: { ...pool, share },
    seal: async (always) => checkpoint?.seal("sensitivity", { known, replicates: replicates() }, arrays, always),
  }
}

function foundShares(checkpoint: Checkpoint | undefined): Share[] {
  const found = checkpoint?.found("sensitivity") ?? null
  if (found === null) return []
  const { known, replicates } = found.state
  const piece = (at: number) => found.numbers.slice(at * replicates!, (at + 1) * replicates!)
  return Array.from({ length: known! }, (_, i) => ({ above: piece(2 * i), below: piece(2 * i + 1) }))
}
