import { expect, test } from "vitest"
import { worldOf } from "../../src/models/plays/world.ts"
import { dragFactor, liftFactor } from "../../src/models/puck/fill-puck.ts"
import { defaultSettings, QUANTITIES, type QuantityKey, withSettings } from "../../src/models/settings.ts"
import { fly } from "../../src/sim/flight.ts"
import { flyToDistance } from "../../src/sim/flight-reference.ts"
import { heightAt, PATH_END, PATH_STRIDE, paceAt, timeAt } from "../../src/sim/path.ts"
import { DRAG, GRAVITY, ICE_FRICTION } from "../../src/sim/world.ts"

const MILE_PER_HOUR = 0.44704

const withQuantities = (quantities: Partial<Record<QuantityKey, number>>) =>
  withSettings(defaultSettings(), { quantities })

/** The stored path of a level shot from height z. */
function levelShot(world: Float64Array, z: number, speed: number, until: number): Float64Array {
  const path = new Float64Array(PATH_STRIDE)
  fly(world, 0, 0, z, 0, 0, speed, until, path, 0)
  return path
}

// seen to fail: the drop taken with g in place of g / 2
test("a puck without drag drops 13 cm over 4 m at 54 mph and 46 cm at 29 mph", () => {
  const world = worldOf(withQuantities({ "puck.drag_coefficient": 0 }))
  for (const [mph, printed, exact] of [
    // source: Michaud-Paquette, Pearsall, Turcotte 2009 as summarised: 13 cm and 46 cm; 13.47 and 46.69 with g = 9.81
    [54, 0.13, 0.1347],
    [29, 0.46, 0.4669],
  ] as const) {
    const drop = 1 - heightAt(levelShot(world, 1, mph * MILE_PER_HOUR, 5), 0, 4)
    expect(drop).toBeCloseTo(exact, 4)
    expect(Math.abs(drop - printed)).toBeLessThan(0.01)
  }
})

// seen to fail: drag in proportion to speed
test("drag alone slows a level puck by exp(-kx) and takes (exp(kx) - 1) / k v0", () => {
  // source: closed form; k = 0.006, v0 = 30, x = 10: v = 28.2529 m/s, t = 0.343536 s
  const world = worldOf(defaultSettings())
  world[DRAG] = 0.006
  world[GRAVITY] = 0
  const path = levelShot(world, 1, 30, 10)
  expect(1 / paceAt(path, 0, 10)).toBeCloseTo(28.2529, 3)
  expect(timeAt(path, 0, 10)).toBeCloseTo(0.343536, 6)
  const state = new Float64Array([0, 0, 1, 30, 0, 0])
  expect(flyToDistance(world, state, 10, 0.01)).toBeCloseTo(0.343536, 6)
  expect(state[3]!).toBeCloseTo(28.2529, 4)
})

// seen to fail: the area of the flat face in the drag
test("the drag factor is 0.006 per metre at the defaults, 0.0045 to 0.0075 over the range of coefficients", () => {
  // source: arithmetic, k = rho Cd A / 2m with Cd 0.6 to 1.0 on 19.35 cm², rho 1.27 kg/m³, m 0.163 kg
  const { low, high } = QUANTITIES["puck.drag_coefficient"]
  expect(dragFactor(defaultSettings())).toBeCloseTo(0.006, 4)
  expect(dragFactor(withQuantities({ "puck.drag_coefficient": low }))).toBeCloseTo(0.0045, 4)
  expect(dragFactor(withQuantities({ "puck.drag_coefficient": high }))).toBeCloseTo(0.0075, 4)
  // source: exp(-kx): .956 to .927 of the speed left after 10 m, .921 to .871 after 60 ft
  for (const [x, most, least] of [
    [10, 0.956, 0.927],
    [18.288, 0.921, 0.871],
  ] as const) {
    const kept = (coefficient: number) => {
      const world = worldOf(withQuantities({ "puck.drag_coefficient": coefficient, "rink.gravity": 0 }))
      return 1 / (30 * paceAt(levelShot(world, 1, 30, x), 0, x))
    }
    expect(kept(low)).toBeCloseTo(most, 2)
    expect(kept(high)).toBeCloseTo(least, 2)
  }
})

// seen to fail: the edge's area in the lift
test("a lift coefficient of 0.096 at 30 m/s is 16 % of the puck's weight", () => {
  // source: [DiscAerodynamics] slope 0.048 a degree at 2 degrees: 0.25 N of 1.60 N
  const lift = liftFactor(withQuantities({ "puck.lift_coefficient": 0.096 })) * 900
  expect(lift / 9.81).toBeCloseTo(0.16, 2)
  expect(lift * 0.163).toBeCloseTo(0.25, 2)
})

// seen to fail: the deceleration halved
test("a sliding puck stops where v² = 2 mu g d says", () => {
  // source: textbook problem, 10 m/s stops in 40 m, mu 0.127 (cut from 0.1276, g = 9.8): arithmetic only, the data are made up
  const world = worldOf(withQuantities({ "rink.gravity": 9.8, "puck.drag_coefficient": 0 }))
  world[ICE_FRICTION] = 100 / (2 * 9.8 * 40)
  expect(world[ICE_FRICTION]!).toBeCloseTo(0.12755, 5)
  const path = levelShot(world, 0, 10, 100)
  expect(path[PATH_END]!).toBeCloseTo(40, 9)
  expect(10 / timeAt(path, 0, 40)).toBeCloseTo(1.25, 6)
})

// seen to fail: the radius written for the diameter
test("the puck measures and weighs what the rule books print", () => {
  const q = QUANTITIES
  // source: [PuckECHL2021] rule 13.1: 3 in by 1 in, 5 1/2 to 6 oz
  expect(q["puck.diameter"].value).toBeCloseTo(3 * 0.0254, 10)
  expect(q["puck.thickness"].value).toBeCloseTo(0.0254, 10)
  expect(q["puck.mass"].low).toBeCloseTo(5.5 * 0.028349523, 3)
  expect(q["puck.mass"].high).toBeCloseTo(6 * 0.028349523, 3)
  // source: [PuckUSAH306] 4 to 4 1/2 oz for the youth puck
  expect(q["puck.youth_mass"].low).toBeCloseTo(4 * 0.028349523, 4)
  expect(q["puck.youth_mass"].high).toBeCloseTo(4.5 * 0.028349523, 4)
  // source: arithmetic: 1346 to 1468 kg/m³ for 1.1583e-4 m³
  const volume = 0.25 * Math.PI * q["puck.diameter"].value ** 2 * q["puck.thickness"].value
  expect(volume).toBeCloseTo(1.1583e-4, 8)
})

// seen to fail: the frozen share applied twice
test("a frozen puck rebounds off the ice with about a third of its speed", () => {
  // source: [PuckTests2008] restitution 32 % lower frozen than the 0.50 of room temperature: 0.34; a drop of a frozen
  // puck on its edge comes back to 12 % of the height, e = 0.35
  const e = QUANTITIES["puck.ice_restitution"].value
  expect(Math.abs(e - 0.5 * (1 - 0.32))).toBeLessThan(0.015)
  expect(e).toBeCloseTo(Math.sqrt(0.12), 2)
})
