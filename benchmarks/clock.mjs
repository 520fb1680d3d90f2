import { performance } from "node:perf_hooks"

/** Processor seconds of this process so far. */
export function processorSeconds() {
  const { user, system } = process.cpuUsage()
  return 1e-6 * (user + system)
}

export function wallSeconds() {
  return 1e-3 * performance.now()
}

/** What `work` takes, in processor seconds. */
export function timed(work) {
  const from = processorSeconds()
  work()
  return processorSeconds() - from
}

export function median(values) {
  const sorted = [...values].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle] : 0.5 * (sorted[middle - 1] + sorted[middle])
}

/**
 * Medians of what several jobs take, measured in turn, round after round, so that a busy machine is as busy for one as
 * for the other. The first `warm` rounds do not count.
 */
export function interleaved(jobs, rounds, warm = 2) {
  const times = jobs.map(() => [])
  for (let round = 0; round < warm + rounds; round++)
    for (const [j, job] of jobs.entries()) {
      const time = job()
      if (round >= warm) times[j].push(time)
    }
  return times.map(median)
}

/** The same of jobs that are waited for, each told the round. */
export async function inTurn(jobs, rounds, warm = 2) {
  const times = jobs.map(() => [])
  for (let round = 0; round < warm + rounds; round++)
    for (const [j, job] of jobs.entries()) {
      const time = await job(round)
      if (round >= warm) times[j].push(time)
    }
  return times.map(median)
}
