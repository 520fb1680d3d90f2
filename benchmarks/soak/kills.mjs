import { rmSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { bytesBelow, filesBelow, program } from "./program.mjs"

/** One depth is known well enough before the other, and takes no more shots. */
const FILE = `question: How far out for a shot from 6 m?
play: { distance: 6 m }
sweep:
  goalie.depth: [0 m, 1.4 m]
until: { half-width: 0.15 %, most: 262144 }
seed: northlake soak
charts: [curve]
`

/** Kills a run at random moments, carries each on, and holds all results to those of an undisturbed run. */
export async function soakKills(count, chance, { folder, fault }) {
  if (count === 0) return
  const file = join(folder, "killed.yaml")
  const out = join(folder, "killed")
  writeFileSync(file, FILE)
  const words = ["run", file, "--out", out]
  const began = performance.now()
  const whole = await program(words)
  const duration = performance.now() - began
  if (whole.code !== 0) fault(`undisturbed run: exit ${whole.code} ${whole.err}`)
  const undisturbed = bytesBelow(out)
  const seen = { killed: 0, carriedOn: 0, same: 0 }
  for (let i = 0; i < count; i++) {
    rmSync(out, { recursive: true })
    const first = await program(words, { killAfter: chance() * duration })
    seen.killed += Number(first.signal === "SIGKILL")
    const second = await program(words)
    seen.carriedOn += Number(second.err.includes("Carrying on the unfinished run"))
    const same = second.code === 0 && bytesBelow(out) === undisturbed
    seen.same += Number(same)
    if (!same) fault(`run ${i}: exit ${second.code}, files ${filesBelow(out).join(" ")} ${second.err}`)
  }
  console.log(
    `${count} runs of ${(duration / 1000).toFixed(1)} s: ${seen.killed} killed, ${seen.carriedOn} carried on from what was kept, ${seen.same} times the same results`,
  )
}
