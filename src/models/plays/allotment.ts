/** A pose weighs a shot by its share over the stratum's allotment; this is the most that any weight may be. */
export const MOST_WEIGHT = 4

/**
 * How many shots each stratum gets: its mean share over the poses, but never so few that some pose would weigh one shot
 * more than MOST_WEIGHT. The floors come off the other strata in proportion. Where poses differ so much that no
 * allotment keeps that promise, the greatest weight is made as small as it can be.
 * `share` is [poses x count], rows sum to 1; the result is [count] and sums to 1.
 */
export function allot(share: Float64Array, poses: number): Float64Array {
  const count = share.length / poses
  const mean = new Float64Array(count)
  const floor = new Float64Array(count)
  for (let i = 0; i < count; i++) {
    let most = 0
    for (let pose = 0; pose < poses; pose++) {
      const one = share[pose * count + i]!
      mean[i] = mean[i]! + one / poses
      if (one > most) most = one
    }
    floor[i] = most / MOST_WEIGHT
  }
  return shrinkToFloor(mean, floor)
}

/**
 * max(scale · mean, floor) with the scale at which it sums to 1: the sum rises with the scale, so halving finds it.
 * Floors that sum to more than 1 are scaled down.
 */
function shrinkToFloor(mean: Float64Array, floor: Float64Array): Float64Array {
  const sumAt = (scale: number) => mean.reduce((sum, one, i) => sum + Math.max(scale * one, floor[i]!), 0)
  let [low, high] = [0, 1]
  if (sumAt(1) > 1)
    for (let step = 0; step < 60; step++) {
      const middle = (low + high) / 2
      if (sumAt(middle) > 1) high = middle
      else low = middle
    }
  const total = sumAt(high)
  return mean.map((one, i) => Math.max(high * one, floor[i]!) / total)
}
