/** Work that is started in order, done in any order and taken in order. */
export interface InOrder<Task, Answer> {
  /** Tasks started and not yet taken at most: what waits to be taken never takes more memory than these answers. */
  readonly ahead: number
  readonly run: (task: Task) => Promise<Answer>
  /** What it returns is waited for before the next is taken. */
  readonly take: (task: Task, answer: Answer) => void | Promise<void>
  /** Asked before each task is started; after the first yes none is started, and those in hand are taken. */
  readonly stop: (next: Task) => boolean
}

/** Does the tasks; true when all are done, false when stopped. A task that throws ends it, and its error is thrown. */
export async function inOrder<Task, Answer>(tasks: Iterable<Task>, how: InOrder<Task, Answer>): Promise<boolean> {
  const inHand: { readonly task: Task; readonly answer: Promise<Answer> }[] = []
  const takeFirst = async () => {
    const { task, answer } = inHand.shift()!
    await how.take(task, await answer)
  }
  let stopped = false
  for (const task of tasks) {
    while (inHand.length >= how.ahead) await takeFirst()
    stopped = how.stop(task)
    if (stopped) break
    const answer = how.run(task)
    // an error is met when the answer is taken, or not at all after an earlier one
    answer.catch(() => undefined)
    inHand.push({ task, answer })
  }
  while (inHand.length > 0) await takeFirst()
  return !stopped
}
