/** One row for each published figure: what is run, what is read off, and what was published. */
import { readFileSync } from "node:fs"

const CLEAN = readFileSync(new URL("../experiments/clean-set-mix.yaml", import.meta.url), "utf8")
/** The clean mix by its own file, and the same with what comes after a save. */
const CLEAN_PLAYED_ON = CLEAN.replace("kind: straight shot", "kind: straight shot\n  rebounds: played")

const file = (seed, play, shooter = "{ level: professional, aim: reads }", more = "") =>
  `question: Row of the published figures?
goalie: { name: standard, stance: set, depth_level: base }
play: ${play}
shooter: ${shooter}
${more}
seed: northlake figures ${seed}
`

const ONE_TIMER = file(
  "one-timer",
  "{ kind: cross-ice pass, pass_from_distance: 8.8 m, pass_from_angle: 47 deg, distance: 8.8 m, angle: -47 deg }",
  "{ level: professional, aim: reads, shot: one-timer }",
)
const SCREENED = file("screened", "{ kind: screened shot, distance: 16 m, angle: 20 deg }")
const TWO_ON_ONE = file(
  "two-on-one",
  "{ kind: two-on-one, distance: 8.3 m, angle: 30 deg, receiver_distance: 6 m, receiver_angle: -30 deg }",
)
/** One row a share of ways a shooter alone plays it; a shoot-out starts from the middle of the ice at less speed. */
const BREAKAWAY = file("breakaway", "{ kind: breakaway }")
const SHOOT_OUT = file("shoot-out", "{ kind: breakaway, carry_speed: 6 m/s }")
const LABORATORY = file(
  "laboratory",
  "{ kind: straight shot, from: [{ label: near, distance: 5 m, angle: 0 deg }, { label: far, distance: 10 m, angle: 0 deg }] }",
  "{ level: professional, aim: reads, shot: wrist }",
)
const ORDINARY = (metres) => file(`ordinary ${metres}`, `{ kind: straight shot, distance: ${metres} m, angle: 0 deg }`)

/** The estimate of a measure over the whole play. */
function whole(results, key) {
  const point = results.points.find(({ spot }) => spot === "all")
  const estimate = point.estimates[key]
  return { ...estimate, assumed: point.assumptions[key] }
}

function rate(key) {
  return ([results]) => whole(results, key)
}

/** One minus a rate. */
function lost(key) {
  return ([results]) => {
    const { mean, low, high, assumed } = whole(results, key)
    const turned = assumed === undefined ? undefined : { low: 1 - assumed.high, high: 1 - assumed.low }
    return { mean: 1 - mean, low: 1 - high, high: 1 - low, assumed: turned }
  }
}

/** How often each kind of shot comes in the mix of a league: the clean share and the second shots are published, the rest is an assumption. */
const LEAGUE = [
  { share: 0.8, of: (all) => whole(all[0], "save_rate") },
  { share: 0.08, of: (all) => whole(all[1], "save_rate") },
  { share: 0.07, of: (all) => whole(all[2], "save_rate") },
  { share: 0.05, of: (all) => whole(all[3], "second_save_rate") },
]

/** Weighted mean of independent rates, their half-widths added as squares. */
function mixed(parts) {
  const mean = parts.reduce((sum, { share, estimate }) => sum + share * estimate.mean, 0)
  const half = Math.hypot(...parts.map(({ share, estimate }) => 0.5 * share * (estimate.high - estimate.low)))
  return { mean, low: mean - half, high: mean + half }
}

export const ROWS = [
  {
    name: "clean set shots from 5 m out, saved",
    kept: false,
    published: ".951 (28,398 shots) [Shot Quality Project]",
    target: [0.94, 0.96],
    runs: [CLEAN],
    find: rate("save_rate"),
    why: "",
  },
  {
    name: "attempts that miss, of those not blocked (clean mix)",
    kept: false,
    published: ".273 and .285 [attempts of a top league]",
    target: [0.26, 0.3],
    runs: [CLEAN],
    find: lost("on_goal_rate"),
    why: "iron that stays out is a miss, as in the published counts",
  },
  {
    name: "league mix, saved",
    kept: true,
    published: ".900 to .915 by season",
    target: [0.9, 0.915],
    runs: [CLEAN, ONE_TIMER, SCREENED, CLEAN_PLAYED_ON],
    find: (all) => mixed(LEAGUE.map(({ share, of }) => ({ share, estimate: of(all) }))),
    why: "80 % clean (published: 80 to 90), 8 % one-timers, 7 % screened (assumed), 5 % second shots (published)",
  },
  {
    name: "one-timers after a pass across, saved",
    kept: true,
    published: ".852 men, .770 women",
    target: [0.77, 0.86],
    runs: [ONE_TIMER],
    find: rate("save_rate"),
    why: "dot to dot and hit on arrival, the goalie about a quarter of a second late at base depth; published ones come from everywhere, many with the goalie across in time",
  },
  {
    name: "passes across the midline, goals of shots on goal",
    kept: true,
    published: "about .30, informal",
    target: [0.22, 0.33],
    runs: [ONE_TIMER],
    find: lost("save_rate"),
    why: "",
  },
  {
    name: "two-on-one, goals of shots on goal",
    kept: true,
    published: ".204 at 8.3 m",
    target: [0.15, 0.23],
    runs: [TWO_ON_ONE],
    find: lost("save_rate"),
    why: "every second carrier passes, to a receiver 6 m out, and no back-checker arrives",
  },
  {
    name: "breakaway, goals of attempts",
    kept: true,
    published: ".256 at 5.6 m",
    target: [0.22, 0.3],
    runs: [BREAKAWAY],
    find: rate("goal_rate"),
    why: "this goalie never bites on a fake, and the shares of shot, deke and braking are assumed",
  },
  {
    name: "shoot-out, goals of attempts",
    kept: true,
    published: ".327; .303 to .336 by season",
    target: [0.28, 0.35],
    runs: [SHOOT_OUT],
    find: rate("goal_rate"),
    why: "a breakaway at 6 m/s (assumed); as there, no fakes",
  },
  {
    name: "laboratory, wrist shots from 5 and 10 m, saved",
    kept: true,
    published: "about .75, no difference between the two",
    target: [0.7, 0.8],
    runs: [LABORATORY],
    find: rate("save_rate"),
    why: "not game conditions in the study; physics makes 5 m harder than 10 m",
  },
  {
    name: "ordinary shot from 5.6 m, saved",
    kept: true,
    published: ".880",
    target: null,
    runs: [ORDINARY(5.6)],
    find: rate("save_rate"),
    why: "",
  },
  {
    name: "ordinary shot from 8.3 m, saved",
    kept: true,
    published: ".917",
    target: null,
    runs: [ORDINARY(8.3)],
    find: rate("save_rate"),
    why: "",
  },
  {
    name: "second shots within a second, saved",
    kept: true,
    published: ".549 within one second, .526 in the second",
    target: [0.5, 0.65],
    runs: [CLEAN_PLAYED_ON],
    find: rate("second_save_rate_1"),
    why: "no scrambles and no passes on the rebound; a square body sends pucks straight back out",
  },
  {
    name: "second shots in the third second, saved",
    kept: true,
    published: ".736",
    target: null,
    runs: [CLEAN_PLAYED_ON],
    find: rate("second_save_rate_3"),
    why: "hardly any come so late here",
  },
  {
    name: "goals along the ice (clean mix)",
    kept: true,
    published: "71 % under 30 cm, 14 to 27 % five-hole: weak, conflicting",
    target: null,
    runs: [CLEAN],
    find: ([results]) => {
      const low =
        results.goalMaps[0]?.zones.filter(({ zone }) => zone.startsWith("low") || zone.includes("five-hole")) ?? []
      const mean = low.reduce((sum, { share }) => sum + share.mean, 0)
      const half = Math.hypot(...low.map(({ share }) => 0.5 * (share.high - share.low)))
      return { mean, low: mean - half, high: mean + half }
    },
    why: "low zones, under the height of shooter.zone_low_height",
  },
]
