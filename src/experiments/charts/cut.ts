type Corner = readonly [number, number]

/** A rectangle on the plane of the mouth, metres. */
export interface Window {
  readonly left: number
  readonly right: number
  readonly bottom: number
  readonly top: number
}

/**
 * The part of a closed outline inside a window (Sutherland and Hodgman: one side after the other). A puck near the goal
 * line throws the goalie's outline tens of metres wide, more than a drawing can hold.
 */
export function cutTo(corners: readonly Corner[], window: Window): Corner[] {
  const sides: readonly (readonly [0 | 1, number, 1 | -1])[] = [
    [0, window.left, 1],
    [0, window.right, -1],
    [1, window.bottom, 1],
    [1, window.top, -1],
  ]
  const { left, right, bottom, top } = window
  if (corners.every(([y, z]) => y >= left && y <= right && z >= bottom && z <= top)) return [...corners]
  return sides.reduce<Corner[]>((kept, [axis, at, sign]) => cutSide(kept, axis, at, sign), [...corners])
}

/** Keeps what lies at or beyond `at` along an axis, in the direction of `sign`. */
function cutSide(corners: readonly Corner[], axis: 0 | 1, at: number, sign: 1 | -1): Corner[] {
  const inside = (corner: Corner): boolean => sign * (corner[axis] - at) >= 0
  return corners.flatMap((corner, index) => {
    const before = corners.at(index - 1)!
    const kept = inside(corner) ? [corner] : []
    return inside(corner) === inside(before) ? kept : [between(before, corner, axis, at), ...kept]
  })
}

function between(from: Corner, to: Corner, axis: 0 | 1, at: number): Corner {
  const share = (at - from[axis]) / (to[axis] - from[axis])
  const other = axis === 0 ? 1 : 0
  const value = from[other] + share * (to[other] - from[other])
  return axis === 0 ? [at, value] : [value, at]
}
