import { restToPassing } from "../motion/mode.ts"
import type { Metres, MetresPerSecond, Seconds } from "../units.ts"
import * as worldColumns from "../world.ts"
import * as R from "./rebound-table.ts"

// copies of their own: the compiler folds them, where it would load an import anew at every use
const { GRAVITY, ICE_FRICTION, ICE_RESTITUTION, MOUTH_HALF_WIDTH, PUCK_HALF_THICKNESS } = worldColumns

/** How the loose puck ends: columns of the race. */
export const ENDS = 0
/** Values of ENDS. */
export const OUT_OF_PLAY = 0
export const COVERED = 1
export const CLEARED = 2
export const REACHED = 3
/** When, s after the save, and where. */
export const ENDS_AT = 1
export const ENDS_X = 2
export const ENDS_Y = 3
/** Each player's place and reading, x y t. */
export const PLAYERS = 4
export const RACE_LENGTH = PLAYERS + 3 * R.MOST_PLAYERS

/** The race is looked at this often. */
const STEP: Seconds = 0.02
/** A puck higher than this is out of sticks' reach, and one faster than this is not covered. */
const IN_REACH: Metres = 0.5
const COVERED_BELOW: MetresPerSecond = 5
/** How far behind the goal line a puck is out of play for a second shot, m. */
const BEHIND: Metres = 0.15

/** A loose puck's place at the save and its velocity there; rink frame. */
export interface Loose {
  x: Metres
  y: Metres
  z: Metres
  vx: MetresPerSecond
  vy: MetresPerSecond
  vz: MetresPerSecond
}

/** Seconds until a loose puck first lands. */
export function landsAfter(world: Float64Array, { z, vz }: Loose): Seconds {
  const g = world[GRAVITY]!
  const above = z - world[PUCK_HALF_THICKNESS]!
  return g > 0 ? (vz + Math.sqrt(vz * vz + 2 * g * (above > 0 ? above : 0))) / g : 0
}

/**
 * How far a loose puck has gone in plan after t seconds: on at its speed while it flies, slower by the friction of the
 * landing, f (1 + e) times the speed downward, then sliding to rest at f g.
 */
export function goneAfter(world: Float64Array, loose: Loose, t: Seconds): Metres {
  const speed = Math.sqrt(loose.vx * loose.vx + loose.vy * loose.vy)
  const lands = landsAfter(world, loose)
  if (t <= lands) return speed * t
  const slide = speedAfterLanding(world, loose, speed, lands)
  const slows = world[ICE_FRICTION]! * world[GRAVITY]!
  const stops = slows > 0 ? slide / slows : Infinity
  const sliding = t - lands < stops ? t - lands : stops
  return speed * lands + sliding * (slide - 0.5 * slows * sliding)
}

function speedAfterLanding(
  world: Float64Array,
  { vz }: Loose,
  speed: MetresPerSecond,
  lands: Seconds,
): MetresPerSecond {
  const down = world[GRAVITY]! * lands - vz
  const lost = world[ICE_FRICTION]! * (1 + world[ICE_RESTITUTION]!) * (down > 0 ? down : 0)
  return speed > lost ? speed - lost : 0
}

function heightAfter(world: Float64Array, loose: Loose, t: Seconds): Metres {
  return t >= landsAfter(world, loose) ? 0 : loose.z + t * (loose.vz - 0.5 * world[GRAVITY]! * t)
}

/** Places the players of this shot and their readings, by its REBOUND draws from `at` on. */
export function placePlayers(table: Float64Array, draws: Float64Array, at: number, race: Float64Array): void {
  const count = table[R.ATTACKERS]! + table[R.DEFENDERS]!
  for (let j = 0; j < count; j++) {
    const draw = at + R.DRAW_PLAYER + j * R.DRAWS_OF_PLAYER
    const near = table[R.NEAREST]!
    const far = table[R.FURTHEST]!
    // evenly over the wedge
    const r = Math.sqrt(near * near + draws[draw]! * (far * far - near * near))
    const angle = (2 * draws[draw + 1]! - 1) * table[R.HALF_ANGLE]!
    const row = PLAYERS + 3 * j
    race[row] = r * Math.cos(angle)
    race[row + 1] = r * Math.sin(angle)
    race[row + 2] = table[R.READS]! * Math.exp(table[R.READS_SPREAD]! * draws[draw + 2]!)
  }
}

/**
 * Who is first at a loose puck: an attacker, a defender or the goalie at (goalieX, goalieY), who covers what is near from
 * `covers` seconds on. Writes ENDS, ENDS_AT, ENDS_X, ENDS_Y to `race`, which has the players placed. Allocates nothing.
 */
export function raceTo(
  world: Float64Array,
  table: Float64Array,
  control: Float64Array,
  loose: Loose,
  goalieX: Metres,
  goalieY: Metres,
  covers: Seconds,
  race: Float64Array,
): void {
  const speed = Math.sqrt(loose.vx * loose.vx + loose.vy * loose.vy)
  const dx = speed > 0 ? loose.vx / speed : 0
  const dy = speed > 0 ? loose.vy / speed : 0
  const attackers = table[R.ATTACKERS]!
  const players = attackers + table[R.DEFENDERS]!
  const within = control[R.COVERS_WITHIN]!
  const out = table[R.OUT_OF_REACH]!
  const half = world[MOUTH_HALF_WIDTH]!
  race[ENDS] = OUT_OF_PLAY
  for (let t = STEP; t <= table[R.LASTS]!; t += STEP) {
    const gone = goneAfter(world, loose, t)
    const x = loose.x + gone * dx
    const y = loose.y + gone * dy
    race[ENDS_AT] = t
    race[ENDS_X] = x
    race[ENDS_Y] = y
    if (x * x + y * y > out * out || x < -BEHIND || (x < 0 && (y > half || y < -half))) return
    if (heightAfter(world, loose, t) > IN_REACH) continue
    let best = 0
    let by = -1
    for (let j = 0; j < players; j++) {
      const row = PLAYERS + 3 * j
      const px = x - race[row]!
      const py = y - race[row + 1]!
      const way = Math.sqrt(px * px + py * py) - table[R.STICK]!
      const spare = t - race[row + 2]! - restToPassing(table[R.STRIDE]!, table[R.TOP_SPEED]!, way > 0 ? way : 0)
      if (spare >= best) {
        best = spare
        by = j
      }
    }
    const gx = x - goalieX
    const gy = y - goalieY
    const isNear = t >= covers && gx * gx + gy * gy <= within * within
    if (isNear && (goneAfter(world, loose, t + 1e-3) - gone) * 1e3 <= COVERED_BELOW) race[ENDS] = COVERED
    else if (by >= 0) race[ENDS] = by < attackers ? REACHED : CLEARED
    if (race[ENDS] !== OUT_OF_PLAY) return
  }
}
