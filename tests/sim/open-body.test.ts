import { describe, expect, test } from "vitest"
import { compileScene } from "../../src/models/plays/scene.ts"
import { defaultSettings, withSettings } from "../../src/models/settings.ts"
import { BUTTERFLY_SLIDE, T_PUSH } from "../../src/sim/motion/mode.ts"
import { OPENING_LEVELS } from "../../src/sim/motion/opening.ts"
import { lyingPosture, openBodies, openBody, openPosture } from "../../src/sim/open-body.ts"
import { AXIS_0, AXIS_1, AXIS_2, CENTRE, LIMB_STRIDE, PART_STRIDE, PEAK_SPEED } from "../../src/sim/parts.ts"

const scene = compileScene([withSettings(defaultSettings(), { choices: { "play.kind": "cross-ice pass" } })])
const set = scene.postures[0]!
const pushed = scene.opened[0]![T_PUSH]!

describe("a body opened by a share", () => {
  // seen to fail: with the axes left as they are mixed
  test("has unit axes at right angles at every share, and middles on the straight way between", () => {
    for (const share of [0.25, 0.5, 1]) {
      const { parts } = openPosture(set, pushed, share)
      for (let row = 0; row < parts.length; row += PART_STRIDE) {
        for (const a of [AXIS_0, AXIS_1, AXIS_2])
          for (const b of [AXIS_0, AXIS_1, AXIS_2])
            expect(dot(parts, row + a, row + b)).toBeCloseTo(a === b ? 1 : 0, 12)
        const along =
          set.parts[row + CENTRE + 1]! + share * (pushed.parts[row + CENTRE + 1]! - set.parts[row + CENTRE + 1]!)
        expect(parts[row + CENTRE + 1]).toBeCloseTo(along, 12)
      }
    }
  })

  // seen to fail: with the roots going the other way
  test("is the set body at no share and the movement's own at the whole", () => {
    openPosture(set, pushed, 0).parts.forEach((number, i) => {
      expect(number).toBeCloseTo(set.parts[i]!, 12)
    })
    const whole = openPosture(set, pushed, 1)
    whole.parts.forEach((number, i) => {
      expect(number).toBeCloseTo(i % PART_STRIDE < 12 ? pushed.parts[i]! : set.parts[i]!, 12)
    })
    whole.roots.forEach((root, i) => {
      expect(root).toBeCloseTo(pushed.roots[i]!, 12)
    })
  })

  // seen to fail: with axes made upright anew
  test("keeps a part that the movement does not change to the last bit", () => {
    expect(openPosture(set, { parts: set.parts, roots: set.roots }, 0.375)).toEqual(set)
  })
})

describe("the bodies of a scene", () => {
  const bodies = openBodies(scene, 0.038)

  // seen to fail: with none kept, and with one kept for all modes
  test("are made once for each level of each mode, and have slower limbs where the goalie is not set", () => {
    const unset = openBody(bodies, 0, T_PUSH, OPENING_LEVELS, false, true)
    expect(openBody(bodies, 0, T_PUSH, OPENING_LEVELS, false, true)).toBe(unset)
    const known = new Set([unset.posture.parts])
    for (const [mode, level, lies, slow] of [
      [T_PUSH, 4, false, true],
      [BUTTERFLY_SLIDE, 4, false, true],
      [BUTTERFLY_SLIDE, 4, true, true],
      [BUTTERFLY_SLIDE, 4, true, false],
    ] as const)
      known.add(openBody(bodies, 0, mode, level, lies, slow).posture.parts)
    expect(known.size).toBe(5)
    const slower = unset.posture.limbs[PEAK_SPEED]! / set.limbs[PEAK_SPEED]!
    expect(slower).toBeLessThan(1)
    expect(openBody(bodies, 0, BUTTERFLY_SLIDE, 0, true, false).posture.limbs[LIMB_STRIDE + PEAK_SPEED]).toBe(
      set.limbs[LIMB_STRIDE + PEAK_SPEED],
    )
  })

  // seen to fail: with the last phase alone left as it was
  test("lie as the drop ends, at every phase", () => {
    const lying = lyingPosture(set)
    const perPhase = set.parts.length / set.phases
    const last = [...set.parts.subarray((set.phases - 1) * perPhase)]
    for (let k = 0; k < set.phases; k++)
      expect([...lying.parts.subarray(k * perPhase, (k + 1) * perPhase)]).toEqual(last)
  })

  // seen to fail: with bodies opened whatever the play
  test("of a straight shot have nothing opened", () => {
    expect(compileScene([defaultSettings()]).opened).toEqual([[]])
  })
})

function dot(parts: Float64Array, a: number, b: number): number {
  return parts[a]! * parts[b]! + parts[a + 1]! * parts[b + 1]! + parts[a + 2]! * parts[b + 2]!
}
