import type { Metres } from "../units.ts"

/** Who looks at the mouth: a puck's centre, and what travels along the line: light (zero size) or the level disc. */
export interface Sight {
  readonly px: Metres
  readonly py: Metres
  readonly pz: Metres
  readonly discRadius: Metres
  readonly discHalf: Metres
}

/** The opening of the goal: between the posts, under the bar, and the radii of the iron round it. */
export interface Mouth {
  readonly width: Metres
  readonly height: Metres
  readonly postRadius: Metres
  readonly barRadius: Metres
}

/** What the puck sees as light: straight lines without width. */
export function lightFrom(px: Metres, py: Metres, pz: Metres): Sight {
  return { px, py, pz: checkedHeight(px, pz), discRadius: 0, discHalf: 0 }
}

/** What the puck itself can pass: the level disc of radius `discRadius` and half thickness `discHalf`. */
export function puckFrom(px: Metres, py: Metres, pz: Metres, discRadius: Metres, discHalf: Metres): Sight {
  return { px, py, pz: checkedHeight(px, pz), discRadius, discHalf }
}

function checkedHeight(px: Metres, pz: Metres): Metres {
  if (!(px > 0)) {
    throw new RangeError(
      `Cannot look at the mouth as the puck's distance from the goal line must be more than 0 m: current value is ${px} m`,
    )
  }
  return pz
}
