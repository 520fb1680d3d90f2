import { spawnSync } from "node:child_process"
import { mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { bytesBelow, filesBelow, hasTrace, MAIN, program } from "./program.mjs"

const FILE = `question: How far out for a shot from 6 m?
play: { distance: 6 m }
sweep:
  goalie.depth: [0.6 m, 1.4 m]
shots: 4096
seed: northlake disk
charts: [curve]
`
/** Room on the small disk beside what the run writes, kilobytes. */
const SPARE = 256

/** Runs on a disk of its own that gets full at some moment, and again once there is room. */
export async function soakDisks(count, chance, { folder, fault }) {
  if (count === 0) return
  const file = join(folder, "disk.yaml")
  const mount = join(folder, "mount")
  const out = join(folder, "disk")
  writeFileSync(file, FILE)
  mkdirSync(mount)
  const mounted = (size) => `mount -t tmpfs -o size=${size}k tmpfs '${mount}'`
  if (spawnSync("unshare", ["-rm", "sh", "-c", mounted(SPARE)]).status !== 0)
    return console.log("no small disk can be mounted here: what a full one does is left out")
  const whole = await program(["run", file, "--out", out, "--no-assumptions"])
  if (whole.code !== 0) fault(`undisturbed run: exit ${whole.code} ${whole.err}`)
  const undisturbed = bytesBelow(out)
  const written = filesBelow(out).reduce((sum, path) => sum + statSync(join(out, path)).size, 0)
  const size = SPARE + Math.ceil(written / 1024)
  const seen = { done: 0, full: 0, refused: 0, same: 0 }
  for (let i = 0; i < count; i++) {
    const ballast = Math.floor((size - 8) * chance())
    rmSync(out, { recursive: true, force: true })
    const { codes, left, err } = fillAndRun({ mounting: mounted(size), mount, file, out, ballast })
    seen.done += Number(codes[0] === 0)
    seen.full += Number(codes[0] === 1)
    seen.refused += Number(codes[0] === 2)
    const told = codes[0] === 0 || err.includes("free space on the disk must be enough")
    const kept = codes[0] === 0 || left.startsWith("earlier")
    const same = codes[1] === 0 && bytesBelow(out) === undisturbed
    seen.same += Number(same)
    if (!told || !kept || !same || /\.partial/.test(left) || hasTrace(err) || !(codes[0] <= 2))
      fault(`disk ${i} with ${ballast} kB taken: exits ${codes.join(" ")}, left ${left.slice(0, 200)} ${err}`)
  }
  console.log(
    `${count} runs on a small disk: ${seen.done} found room, ${seen.full} met a full disk, ${seen.refused} were refused at the start; ${seen.same} times the same results once there was room`,
  )
}

/** Exit codes of the run beside the ballast and of the run after it is gone, and what the first left behind. */
function fillAndRun({ mounting, mount, file, out, ballast }) {
  const run = `'${process.execPath}' '${MAIN}' run '${file}' --out '${mount}/run' --no-assumptions --quiet`
  const script = [
    mounting,
    `mkdir '${mount}/run' && echo earlier > '${mount}/run/results.csv'`,
    `head -c ${ballast}k /dev/zero > '${mount}/ballast'`,
    `${run} >&2; code=$?; echo $code; head -c 7 '${mount}/run/results.csv'; find '${mount}/run' -name '*.partial'; echo; echo ---`,
    // a run that found room is not made again: results are written beside the old ones, and need as much room again
    `rm '${mount}/ballast'; [ $code = 0 ] || { ${run} >&2; code=$?; }; echo $code; cp -r '${mount}/run' '${out}'`,
  ]
  const { stdout, stderr } = spawnSync("unshare", ["-rm", "sh", "-c", script.join("\n")], { encoding: "utf8" })
  const [first, second] = stdout.split("\n---\n")
  const [code, ...left] = first.split("\n")
  return { codes: [Number(code), Number(second)], left: left.join(" "), err: stderr }
}

/** Asks for places and files whose paths lead through a file: each is refused in words, and nothing is written. */
export async function soakPaths(count, { folder, fault }) {
  const file = join(folder, "path.yaml")
  writeFileSync(file, FILE)
  for (let i = 0; i < count; i++) {
    const below = join(file, ...Array.from({ length: 1 + (i % 4) }, (_, depth) => `below ${depth}`))
    const words = i % 2 === 0 ? ["run", file, "--out", below] : ["run", below, "--out", join(folder, "nowhere")]
    const { code, hung, out, err } = await program(words)
    const files = filesBelow(join(folder, "nowhere"))
    if (code !== 2 || hung || out !== "" || hasTrace(err) || !err.startsWith("Cannot ") || files.length > 0)
      fault(`path ${words.join(" ")}: exit ${code} ${out}${err} ${files.join(" ")}`)
    if (readFileSync(file, "utf8") !== FILE) fault(`path ${words.join(" ")}: the file has changed`)
  }
  console.log(`${count} paths through a file, as the place to write and as the file to read: all refused in words`)
}
