/** A point (m) or a direction in the goalie's own frame: u forward, v to the goalie's left, z up. */
export type Vector = readonly [number, number, number]

export function add(a: Vector, b: Vector): Vector {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

export function subtract(a: Vector, b: Vector): Vector {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

export function scale(a: Vector, by: number): Vector {
  return [a[0] * by, a[1] * by, a[2] * by]
}

/** a + by · direction. */
export function along(a: Vector, direction: Vector, by: number): Vector {
  return [a[0] + by * direction[0], a[1] + by * direction[1], a[2] + by * direction[2]]
}

export function dot(a: Vector, b: Vector): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

export function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

export function length(a: Vector): number {
  return Math.sqrt(dot(a, a))
}

/** The unit vector along `a`; a zero vector stays zero. */
export function unit(a: Vector): Vector {
  const size = length(a)
  return size === 0 ? a : scale(a, 1 / size)
}

/** The unit vector across `axis` that is nearest to `wanted`. `axis` is a unit vector. */
export function across(axis: Vector, wanted: Vector): Vector {
  return unit(along(wanted, axis, -dot(wanted, axis)))
}

/** Between a (share 0) and b (share 1). */
export function between(a: Vector, b: Vector, share: number): Vector {
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]), a[2] + share * (b[2] - a[2])]
}
