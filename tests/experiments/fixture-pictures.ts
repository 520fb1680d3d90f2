import type { GoalMapPicture, Outline, PuckEyePanel, ReachMapPicture } from "../../src/experiments/results.ts"
import type { Estimate } from "../../src/sim/estimate.ts"

type Corner = readonly [number, number]

/** A rounded bar from one place to another, as a closed outline. */
function bar(from: Corner, to: Corner, radius: number, corners = 10): Corner[] {
  const turn = Math.atan2(to[1] - from[1], to[0] - from[0])
  const half = (place: Corner, start: number): Corner[] =>
    Array.from({ length: corners + 1 }, (_, at) => {
      const angle = start + (Math.PI * at) / corners
      return [place[0] + radius * Math.cos(angle), place[1] + radius * Math.sin(angle)]
    })
  return [...half(to, turn - Math.PI / 2), ...half(from, turn + Math.PI / 2)]
}

function slab(from: Corner, to: Corner, width: number): Corner[] {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1])
  const across: Corner = [(-(to[1] - from[1]) / length) * (width / 2), ((to[0] - from[0]) / length) * (width / 2)]
  return [
    [from[0] + across[0], from[1] + across[1]],
    [to[0] + across[0], to[1] + across[1]],
    [to[0] - across[0], to[1] - across[1]],
    [from[0] - across[0], from[1] - across[1]],
  ]
}

/** An invented goalie in a set stance, larger as the puck sees it the further out it stands. */
function body(size: number): Outline[] {
  const draw = (region: string, part: string, points: readonly Corner[]): Outline => ({
    region,
    part,
    points: points.map(([y, z]) => [y * size, z * size]),
  })
  return [
    draw("skates", "left skate", slab([0.3, 0.04], [0.46, 0.04], 0.07)),
    draw("skates", "right skate", slab([-0.3, 0.04], [-0.46, 0.04], 0.07)),
    draw("body", "pants", bar([-0.14, 0.66], [0.14, 0.66], 0.17)),
    draw("body", "torso", bar([0, 0.72], [0, 0.96], 0.25)),
    draw("arms", "left arm", bar([0.22, 1.0], [0.43, 0.76], 0.085)),
    draw("arms", "right arm", bar([-0.22, 1.0], [-0.43, 0.76], 0.085)),
    draw("left pad", "left pad", slab([0.36, 0.05], [0.17, 0.74], 0.27)),
    draw("right pad", "right pad", slab([-0.36, 0.05], [-0.17, 0.74], 0.27)),
    draw("mask", "mask", bar([0, 1.16], [0, 1.22], 0.12)),
    draw("stick", "paddle", slab([-0.42, 0.66], [-0.12, 0.05], 0.08)),
    draw("stick", "blade", slab([-0.16, 0.045], [0.22, 0.045], 0.09)),
    draw("blocker", "blocker", slab([-0.46, 0.52], [-0.44, 0.88], 0.2)),
    draw("catching glove", "catching glove", bar([0.46, 0.72], [0.47, 0.78], 0.13)),
  ]
}

function spareAt(y: number, z: number, depth: number): number {
  return Math.round(70 - 190 * Math.max(0, Math.abs(y) - 0.42) - 120 * Math.abs(z - 0.55) + 30 * depth - 40)
}

export function inventedPanels(count: number): PuckEyePanel[] {
  return Array.from({ length: count }, (_, at) => {
    const depth = 0.6 + 0.4 * at
    const size = 0.86 + 0.1 * depth
    const spare = [0.12, 0.4, 0.68, 0.96, 1.14].flatMap((z) =>
      [-0.84, -0.66, 0.66, 0.84].map((y) => ({
        y,
        z,
        milliseconds: z > 1.1 && Math.abs(y) > 0.8 ? null : spareAt(y, z, depth),
      })),
    )
    return {
      title: `Depth ${depth.toFixed(1)} m`,
      subtitle: "set stance, hands projected",
      mouthWidth: 1.829,
      mouthHeight: 1.219,
      iron: 0.0302,
      outlines: body(size),
      openings: [
        { zone: "high glove side", y: 0.68, z: 1.03, area: 0.13, limb: "glove hand", travel: 0.31 - 0.04 * at },
        { zone: "high blocker side", y: -0.7, z: 1.03, area: 0.12, limb: "blocker hand", travel: 0.27 - 0.03 * at },
        { zone: "low glove side", y: 0.74, z: 0.26, area: 0.09, limb: "left leg", travel: 0.24 - 0.03 * at },
        { zone: "low blocker side", y: -0.74, z: 0.26, area: 0.08, limb: "right leg", travel: 0.22 - 0.02 * at },
        { zone: "five-hole", y: 0.02, z: 0.24, area: 0.03, limb: "stick", travel: 0.08 },
      ],
      clearCircle: { y: 0.7, z: 0.99, radius: 0.21 - 0.02 * at },
      netCovered: 0.52 + 0.06 * at,
      boxArea: 1.07 - 0.13 * at,
      spare,
    }
  })
}

export function inventedReachMaps(count: number): ReachMapPicture[] {
  const cell = 0.061
  const y = Array.from({ length: 30 }, (_, at) => -0.9145 + cell * (at + 0.5))
  const z = Array.from({ length: 20 }, (_, at) => cell * (at + 0.5))
  return Array.from({ length: count }, (_, at) => {
    const depth = 0.8 + at * 0.8
    const milliseconds = z.map((height) =>
      y.map((side) => {
        const stands = (side / 0.52) ** 2 + ((height - 0.55) / 0.62) ** 2 < 0.75 + 0.12 * depth
        const hole = Math.hypot(side, height - 0.2) < 0.12
        if (stands && !hole) return Number.POSITIVE_INFINITY
        if (Math.abs(side) > 0.86 && height > 1.1) return null
        return 95 - 230 * Math.max(0, Math.abs(side) - 0.35) - 95 * Math.abs(height - 0.6) + 35 * depth - 30
      }),
    )
    return {
      title: `Depth ${depth.toFixed(1)} m`,
      subtitle: "wrist shot from 7 m, set stance",
      y,
      z,
      milliseconds,
      probability: milliseconds.map((row) =>
        row.map((value) => (value === null ? 0 : 1 / (1 + Math.exp(-value / 30)))),
      ),
      clear: milliseconds.map((row) => row.map(() => true)),
      cell,
    }
  })
}

export function inventedGoalMap(estimate: (mean: number, half: number) => Estimate): GoalMapPicture {
  const cell = 0.1219
  const y = Array.from({ length: 15 }, (_, at) => -0.9145 + cell * (at + 0.5))
  const z = Array.from({ length: 10 }, (_, at) => cell * (at + 0.5))
  const raw = z.map((height) =>
    y.map(
      (side) =>
        Math.exp(-(((Math.abs(side) - 0.72) / 0.16) ** 2) - ((height - 0.95) / 0.25) ** 2) +
        0.25 * Math.exp(-((side / 0.1) ** 2) - (height / 0.2) ** 2),
    ),
  )
  const total = raw.flat().reduce((sum, value) => sum + value, 0)
  return {
    title: "7 m, slot, depth 1.4 m",
    subtitle: "8,412 goals",
    y,
    z,
    share: raw.map((row) => row.map((value) => value / total)),
    cell,
    zones: [
      { zone: "high glove side", share: estimate(0.372, 0.011), at: [0.62, 0.98] },
      { zone: "high blocker side", share: estimate(0.341, 0.01), at: [-0.62, 0.98] },
      { zone: "five-hole", share: estimate(0.118, 0.007), at: [0, 0.16] },
      { zone: "low glove side", share: estimate(0.09, 0.006), at: [0.62, 0.3] },
      { zone: "low blocker side", share: estimate(0.079, 0.006), at: [-0.62, 0.3] },
    ],
  }
}
