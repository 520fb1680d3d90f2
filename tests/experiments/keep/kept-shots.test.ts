import { describe, expect, test } from "vitest"
import { fireShot, openReplay } from "../../../src/experiments/replay/replay.ts"
import { stretchesOf, tellShot } from "../../../src/experiments/replay/tell.ts"
import type { RunResults } from "../../../src/experiments/results.ts"
import { FATES } from "../../../src/sim/fate.ts"
import { REGIONS } from "../../../src/sim/parts.ts"
import { northlake, ownFolder, seededNumbers } from "../run/unfinished-run.ts"
import { endOfKept, type KeptRow, keepAlone, keptRun, rowsKept, SIX_GROUPS } from "./kept-run.ts"

const place = ownFolder()

const SWEEP = `question: How far out from which distance?
play: { angle: 5 deg }
sweep: { goalie.depth: [0.6 m, 1.4 m], play.distance: [6 m, 9 m] }
shots: 512
seed: northlake sweep
charts: []
`
const SPOTS = `question: From where?
play: { from: [{ label: slot, distance: 6 m, angle: 0 deg }, { label: wing, distance: 9 m, angle: 40 deg }] }
sweep: { goalie.depth: [0 m, 0.8 m, 1.6 m] }
shots: 1024
seed: northlake spots
charts: []
`
const PASS = `question: How far out for a pass across?
play: { kind: cross-ice pass }
sweep: { goalie.depth: [0.3 m, 1.1 m] }
shots: 1024
seed: northlake pass
charts: []
`
const WAITED = `question: How far out, as well as it takes?
play: { distance: 9 m }
sweep: { goalie.depth: [0 m, 1 m, 1.4 m] }
baseline: { goalie.depth: 1.4 m }
until: { half-width: 0.7 % }
seed: northlake stopping
charts: []
`
const EMPTY = `question: And with nobody?
goalie: none
shots: 512
seed: northlake empty
charts: []
`

/** Sum over rows of weight times what is picked. */
function weighed(rows: readonly KeptRow[], pick: (row: KeptRow) => number): number {
  return rows.reduce((sum, row) => sum + Number(row.weight) * pick(row), 0)
}

/** Rates of the kept rows beside those of the results, for every point and spot. */
function ratesBeside({ points }: RunResults, rows: readonly KeptRow[]): [string, number, number][] {
  return points.flatMap(({ index, spot, estimates }) => {
    const mine = rows.filter((row) => row.point === index + 1 && (spot === "all" || row.spot === spot))
    const onGoal = weighed(mine, (row) => (row.saved === null ? 0 : 1))
    const all = weighed(mine, () => 1)
    const fate = (...names: string[]) => weighed(mine, (row) => (names.includes(String(row.fate)) ? 1 : 0))
    const found: Record<string, number> = {
      save_rate: weighed(mine, (row) => Number(row.saved)) / onGoal,
      on_goal_rate: onGoal / all,
      miss_rate: fate("miss", "short") / all,
      iron_rate: fate("iron, out", "iron, in") / all,
      position_rate: weighed(mine, (row) => Number(row.standing)) / onGoal,
      block_rate: weighed(mine, (row) => Number(row.blocked)) / onGoal,
      not_set_rate: weighed(mine, (row) => (row.set === false ? 1 : 0)) / onGoal,
      arrival_margin_s: weighed(mine, (row) => Number(row.set_for_s ?? 0)) / onGoal,
    }
    return Object.entries(found).map(([key, rate]): [string, number, number] => [
      `${key} of ${index} ${spot}`,
      rate,
      estimates[key]?.mean ?? Number.NaN,
    ])
  })
}

describe("the kept shots", () => {
  // seen to fail: the batches of every replicate fired as the first's; shots in off the iron taken as nobody's to save; the
  // shots of a known point kept on
  test.each([
    ["of a sweep over several groups", SWEEP],
    ["of several spots", SPOTS],
    ["of a play with a pass", PASS],
    ["without a goalie", EMPTY],
    ["of points of which one is known before the other", WAITED],
  ])("%s sum to the rates of the results, to 1e-9", async (name, text) => {
    const experiment = northlake({}, text)
    const results = await keptRun(place(name), experiment)
    const rows = await rowsKept(place(name))
    const whole = results.points.filter(({ spot }) => spot === "all")
    expect(rows).toHaveLength(whole.reduce((sum, { shots }) => sum + shots, 0))
    expect(new Set(whole.map(({ shots }) => shots)).size).toBe(text === WAITED ? 2 : 1)
    const beside = ratesBeside(results, rows).filter(([, , rate]) => Number.isFinite(rate))
    expect(beside.length).toBeGreaterThanOrEqual(6 * experiment.points.length)
    for (const [what, kept, rate] of beside) expect(Math.abs(kept - rate), what).toBeLessThan(1e-9)
  })

  // seen to fail: the stretches of the block behind an anticipated shot kept; two poses' labels exchanged
  test("are those that replay tells", async () => {
    const experiment = northlake({}, SPOTS)
    await keepAlone(place("told"), experiment)
    const rows = await rowsKept(place("told"))
    const contested = rows.filter((row) => row.fate === "on goal" && row.blocked === 0)
    expect(contested.length).toBeGreaterThan(100)
    for (const at of seededNumbers("told", 24, 0, contested.length)) {
      const row = contested[at]!
      const replay = openReplay(experiment, Number(row.point) - 1)
      const fired = fireShot(replay, { replicate: Number(row.replicate), index: Number(row.shot) })
      const stretches = stretchesOf(replay)
      const story = tellShot(replay, fired.name)
      expect(row.saved).toBeCloseTo(fired.saved, 12)
      expect(row.weight).toBeCloseTo(fired.weight, 8)
      expect(row.spot).toBe(story.release.spot)
      expect(row["goalie.depth_m"]).toBe([0, 0.8, 1.6][Number(row.point) - 1])
      expect(row.origin_x_m).toBeCloseTo(story.release.xM, 4)
      expect(row.aim_y_m).toBeCloseTo(story.release.aim.yCm / 100, 3)
      expect(row.fate).toBe(story.flight.fate)
      expect(Number(row.speed_mps) * 3.6).toBeCloseTo(story.release.speedKmH, 1)
      expect(Number(row.flight_s) * 1000).toBeCloseTo(story.flight.atLine!.timeMs, 1)
      expect(row.last_saving_start_s).toBe(stretches.at(-1)?.to ?? null)
      const apart = stretches.filter(({ from }, i) => i === 0 || stretches[i - 1]!.to < from)
      expect(row.saving_stretches).toBe(apart.length)
    }
  })

  test("tell of a goalie who reacts behind a likely block as of one who only reacts", async () => {
    const react = northlake({ set: ["goalie.answer=react"] }, SWEEP)
    await keepAlone(place("likely"), northlake({}, SWEEP))
    await keepAlone(place("reacts"), react)
    const [likely, reacts] = [await rowsKept(place("likely")), await rowsKept(place("reacts"))]
    const between = likely.flatMap((row, at) => (Number(row.blocked) > 0 && Number(row.blocked) < 1 ? [at] : []))
    expect(between.length).toBeGreaterThan(200)
    // other searches came before those of a clearance: it differs by 5 nm at most, and so may a moment by 5 ns
    for (const at of between)
      for (const name of ["saving_stretches", "first_saving_start_s", "last_saving_start_s"])
        expect(likely[at]![name], name).toBeCloseTo(Number(reacts[at]![name]), 8)
  })

  test("say in words what became of them, and nothing of a goalie where nobody has to save", async () => {
    await keepAlone(place("words"), northlake({}, PASS))
    const rows = await rowsKept(place("words"))
    const by = new Set(rows.map((row) => row.saved_by).filter((region) => region !== null))
    for (const region of by) expect(REGIONS).toContain(region)
    expect(by.size).toBeGreaterThan(3)
    for (const row of rows) {
      expect(FATES).toContain(row.fate)
      const onGoal = row.fate === "on goal" || row.fate === "iron, in"
      for (const name of ["saved", "blocked", "set", "set_for_s"]) expect(row[name] !== null, name).toBe(onGoal)
      // set for less than nothing: too late, or still set as the goalie has not gone yet
      if (onGoal && Number(row.set_for_s) > 0) expect(row.set).toBe(true)
    }
  })

  test("carry their description with them, and the least and greatest of what rows are looked for by", async () => {
    const experiment = northlake({}, SIX_GROUPS)
    await keepAlone(place("described"), experiment)
    const end = await endOfKept(place("described"))
    const facts = Object.fromEntries(end.key_value_metadata!.map(({ key, value }) => [key, value]))
    const names = end.schema.slice(1).map(({ name }) => name)
    expect(Object.keys(JSON.parse(facts.columns!))).toEqual(names)
    expect(facts).toMatchObject({ seed: "northlake kept", question: experiment.question, version: "1.2.3" })
    expect(end.row_groups).toHaveLength(6)
    const points = end.row_groups.map(({ columns }) => columns[0]!.meta_data!.statistics)
    expect(points.map((one) => [one!.min_value, one!.max_value])[1]).toEqual([2, 2])
  })
})
