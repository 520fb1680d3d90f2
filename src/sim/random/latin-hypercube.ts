import { DESIGN, fillUniforms, type SeedKey } from "./streams.ts"

/**
 * Latin hypercube: each dimension is cut into as many equal parts as there are points, each part holds one point at a
 * place by chance, and the parts of different dimensions are matched by chance. M. D. McKay, R. J. Beckman and W. J.
 * Conover, Technometrics 21 (1979), 239-245. Any number of points; [count x dimensions] in (0, 1).
 */
export function latinHypercube(key: SeedKey, replicate: number, count: number, dimensions: number): Float64Array {
  const points = new Float64Array(count * dimensions)
  const draws = new Float64Array(2 * count)
  for (let d = 0; d < dimensions; d++) {
    fillUniforms(key, replicate, DESIGN, d * count, count, 2, draws)
    // the order of the parts by the first draw, the place inside the part by the second
    const order = Array.from({ length: count }, (_, i) => i).sort((a, b) => draws[2 * a]! - draws[2 * b]! || a - b)
    order.forEach((part, i) => {
      points[i * dimensions + d] = (part + draws[2 * i + 1]!) / count
    })
  }
  return points
}
