/** Shows how far a run is. */
export interface Progress {
  /** Share of the stage done, and shots against poses fired in it where they are counted. */
  readonly show: (share: number, stage: string, shots?: number) => void
  readonly end: () => void
}

/**
 * A bar with rate and time left on standard error; null where that is no terminal. It has no colours. `now` gives
 * milliseconds.
 */
export async function openProgress(
  stream: NodeJS.WriteStream = process.stderr,
  now = () => performance.now(),
): Promise<Progress | null> {
  if (!stream.isTTY) return null
  const { default: progress } = await import("cli-progress")
  const bar = new progress.SingleBar({
    format: "{stage} {bar} {percentage} %{rate}, {left} left",
    clearOnComplete: true,
    stream,
  })
  let stage = ""
  let first = { share: 0, shots: 0, time: 0 }
  return {
    show(share, name, shots = 0) {
      const time = now()
      if (name !== stage) {
        if (stage !== "") bar.stop()
        stage = name
        // what an earlier run had fired is no part of the rate
        first = { share, shots, time }
        bar.start(1000, 0, { stage, rate: "", left: "–" })
      }
      const seconds = (time - first.time) / 1000
      if (seconds < 0.5) return
      const fired = Math.round((shots - first.shots) / seconds)
      const rate = fired > 0 ? `, ${fired.toLocaleString("en-US")} shots/s` : ""
      const left = durationText((seconds * (1 - share)) / (share - first.share))
      bar.update(Math.round(share * 1000), { stage, rate, left })
    },
    end: () => bar.stop(),
  }
}

/** `40 s`, `3 min 20 s`, `2 h 5 min`. */
export function durationText(seconds: number): string {
  const whole = Math.ceil(seconds)
  if (!Number.isFinite(whole)) return "–"
  if (whole < 60) return `${whole} s`
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`
  return `${Math.floor(whole / 3600)} h ${Math.floor((whole % 3600) / 60)} min`
}
