import { describe, expect, test } from "vitest"
import { controlNumbers, reboundOf } from "../../../src/models/plays/rebound.ts"
import { worldOf } from "../../../src/models/plays/world.ts"
import { defaultSettings, withSettings } from "../../../src/models/settings.ts"
import * as L from "../../../src/sim/rebound/loose.ts"
import { goneAfter, landsAfter, raceTo } from "../../../src/sim/rebound/loose.ts"
import * as R from "../../../src/sim/rebound/rebound-table.ts"
import { GRAVITY, ICE_FRICTION, ICE_RESTITUTION, PUCK_HALF_THICKNESS } from "../../../src/sim/world.ts"

const settings = withSettings(defaultSettings(), { choices: { "play.rebounds": "played" } })
const world = worldOf(settings)
const onIce = { x: 1, y: 0, z: world[PUCK_HALF_THICKNESS]!, vx: 4, vy: 3, vz: 0 }

describe("a loose puck", () => {
  // seen to fail with the slide's half left out
  test("slides to rest after v² / 2 f g", () => {
    const slows = world[ICE_FRICTION]! * world[GRAVITY]!
    expect(goneAfter(world, onIce, 100)).toBeCloseTo(25 / (2 * slows), 9)
    expect(goneAfter(world, onIce, 1)).toBeCloseTo(5 - 0.5 * slows, 9)
  })

  test("that drops from a height h lands after sqrt(2 h / g), slower by the friction of the landing", () => {
    const high = { ...onIce, z: onIce.z + 0.8 }
    const lands = Math.sqrt(1.6 / world[GRAVITY]!)
    expect(landsAfter(world, high)).toBeCloseTo(lands, 12)
    const lost = world[ICE_FRICTION]! * (1 + world[ICE_RESTITUTION]!) * world[GRAVITY]! * lands
    expect(goneAfter(world, high, lands)).toBeCloseTo(5 * lands, 12)
    const pace = (goneAfter(world, high, lands + 1e-6) - goneAfter(world, high, lands)) / 1e-6
    expect(pace).toBeCloseTo(5 - lost, 4)
  })
})

describe("the race", () => {
  const table = reboundOf(settings)
  const control = controlNumbers(settings)

  function run(players: readonly (readonly [number, number, number])[], covers: number): Float64Array {
    const race = new Float64Array(L.RACE_LENGTH)
    for (const [j, player] of players.entries()) race.set(player, L.PLAYERS + 3 * j)
    const few = table.slice()
    few[R.ATTACKERS] = 1
    few[R.DEFENDERS] = players.length - 1
    raceTo(world, few, control, { ...onIce, x: 2, vx: 0.5, vy: 0 }, 1.2, 0, covers, race)
    return race
  }

  // seen to fail with attackers and defenders told apart by the wrong count
  test("goes to whoever has time to spare, and to the goalie where both come late", () => {
    expect(run([[2.2, 1, 0.2]], 5)[L.ENDS]).toBe(L.REACHED)
    expect(run([[6, 4, 0.2], [2.2, -1, 0.2]], 5)[L.ENDS]).toBe(L.CLEARED) // biome-ignore format: one race a line
    expect(run([[6, 4, 1]], 0.1)[L.ENDS]).toBe(L.COVERED)
  })

  // seen to fail with the ice behind the goal line played on
  test("is over when the puck is where nobody shoots from", () => {
    const race = new Float64Array(L.RACE_LENGTH)
    const away = { ...onIce, vx: -6, vy: 6 }
    const nobody = table.slice()
    nobody[R.ATTACKERS] = 0
    nobody[R.DEFENDERS] = 0
    raceTo(world, nobody, control, away, 1, -3, 9, race)
    expect(race[L.ENDS]).toBe(L.OUT_OF_PLAY)
    expect(race[L.ENDS_X]).toBeLessThan(0)
    expect(race[L.ENDS_AT]).toBeLessThan(0.4)
  })
})
