import { boxSection } from "./box.mjs"
import { contactSection } from "./contact/table.mjs"
import { halfWidthSection } from "./half-width.mjs"
import { count, ms, ns, percent, table } from "./markdown.mjs"
import { replaySection } from "./replay.mjs"

/** The results as a page of Markdown. */
export function reportOf(r) {
  const compiler = r.compiler === null ? "no C++ compiler" : `g++ ${r.compiler} -O3 -march=native`
  return `# Speed

Written by \`npm run bench\` on ${r.date}: ${r.machine}, Node ${r.node}, ${compiler}. Load of the machine at the start and the
end of the run: ${r.load.map((load) => load.toFixed(1)).join(" and ")}. Medians of ${r.rounds} interleaved rounds; processor time unless a row says
wall. Trust the ratios more than the absolutes.

## Stages

Shots from 8 m straight ahead, 11 depths, the default shooter who reads the goalie. Stages are differences of
measurements: one below 0 is less than their noise.

${table(
  ["for each shot", "ns"],
  [
    ["strata, draws, aim and release", ns(r.shot.release)],
    ["flight", ns(r.shot.flight)],
    ["crossing and iron", ns(r.shot.crossing)],
  ],
)}

${table(
  [`for each goalie and shot on goal (${percent(r.pose.onGoal)} of shots)`, "TypeScript, ns", "compiled, ns"],
  [
    ["stand", ns(r.pose.typescript.stand), ns(r.pose.compiled.stand)],
    ["meet: path in the goalie's frame, clocks, parts refused", ns(r.pose.typescript.meet), ""],
    ["saves: clearances, reach, block, probability", ns(r.pose.typescript.saves), ""],
    ["meet and saves", ns(r.pose.typescript.meet + r.pose.typescript.saves), ns(r.pose.compiled.both)],
    ["verdict and tallies", ns(r.pose.typescript.verdict), ns(r.pose.compiled.verdict)],
  ],
)}

${throughputSection(r.throughput)}

## Against plain C++

The same straight-shot kernel, written plainly in C++ (\`yardstick/\`), on the same shots; each kernel fires each scene in a
thread of its own, as in a run. Tallies agree within the difference given, per shot. Nanoseconds for each shot and goalie,
all shots, the making of them included. A run takes the compiled kernel (\`src/assembly\`, WebAssembly) where there is
WebAssembly; shots, tallies and all around it are in TypeScript.

${yardstickOf(r.yardstick)}

${contactSection(r.contact)}

## Two threads

A warm pool of two threads does the same tasks ${r.threads.gain.toFixed(2)} times as fast as one thread on the wall clock (median; best
round ${r.threads.best.toFixed(2)}), and takes ${r.threads.cost.toFixed(2)} times its processor time. Other work on the machine lowers the first number.

## One sweep against separate runs

Twenty depths over the same shots against twenty separate runs, for the same half-width of the difference between two
depths: variances measured over 32 replicates, times their measured costs.

${table(
  ["depths apart", "variance of the difference, separate : sweep", "processor time, separate : sweep"],
  r.sweep.map(({ metres, variance, time }) => [`${metres.toFixed(1)} m`, variance.toFixed(1), time.toFixed(1)]),
)}

${boxSection(r.box)}

${replaySection(r.replay)}

${halfWidthSection(r.halfWidths, r.halfWidthRounds)}

## Memory

\`memory.md\` has the peak memory of whole runs at few shots and at many, and of runs that keep every shot.

## Cold start

${table(
  ["fresh process", "wall, ms"],
  [
    ["bare interpreter", ms(r.start.bare)],
    ["--help", ms(r.start.help)],
    ["depth-straight-shots, 2000 shots, no assumptions, charts and report", ms(r.start.run)],
    ["twenty depths to half a point, three charts and report, no assumptions", ms(r.start.twenty)],
    ["the same with the assumption range", ms(r.start.assumed)],
  ],
)}
`
}

/** What a second of one thread fires at each play, and what a shot takes of each goalie. */
export function throughputSection(rows) {
  const straight = (row) => rows.find(({ play, poses }) => play === "straight shot" && poses === row.poses)
  const each = ({ poses }, shots) => ns(1e9 / (shots * poses))
  return `## Shots a second, one thread

From 8 m straight ahead: the straight shot, and a one-timer after a pass across the ice, which every goalie follows. Every
shot meets every goalie of the scene; each scene has a thread of its own, and they fire in turn.

${table(
  [
    ...["play", "goalies", "compiled kernel", "kernel in TypeScript", "plain estimator (millisecond steps)"],
    ...["speed, compiled : TypeScript", "speed, compiled : straight shot"],
  ],
  rows.map((row) => [
    row.play,
    row.poses,
    ...[row.compiled, row.typescript, row.plain].map(count),
    (row.compiled / row.typescript).toFixed(2),
    (row.compiled / straight(row).compiled).toFixed(2),
  ]),
)}

The same as nanoseconds for each shot and goalie, all shots, the making of them included:

${table(
  ["play", "goalies", "compiled, ns", "TypeScript, ns", "plain, ns"],
  rows.map((row) => [row.play, row.poses, ...[row.compiled, row.typescript, row.plain].map((n) => each(row, n))]),
)}`
}

function yardstickOf(rows) {
  if (rows === null) return "Not run: g++ is missing."
  return table(
    [
      ...["scene", "TypeScript, ns", "compiled, ns", "C++, ns"],
      ...["speed, TypeScript : C++", "speed, compiled : C++", "largest difference"],
    ],
    rows.map(({ name, typescript, compiled, cpp, difference }) => [
      name,
      ns(typescript),
      ns(compiled),
      ns(cpp),
      (cpp / typescript).toFixed(2),
      (cpp / compiled).toFixed(2),
      difference.toExponential(0),
    ]),
  )
}
