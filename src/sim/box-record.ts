/** Columns of the record. In: path in the box's axes with the share of each axis that is vertical, box, range, disc. */
export const BOX_Q = 0 // q, m
export const BOX_W = 3 // w, m per unit of s
export const BOX_UP = 6 // z component of each axis in the frame where the disc is level
export const BOX_H = 9 // half-sizes, m
export const BOX_ROUNDING = 12
export const BOX_LEAST = 13
export const BOX_MOST = 14
export const DISC_RADIUS = 15
export const DISC_HALF = 16
/** Out: clearance in metres, zero or less where the puck touches. */
export const CLEARANCE = 17
/**
 * Scratch, all as seen along the path: place of the puck's middle; half edges of the box and, last, half the thickness of
 * the disc, [4] across and [4] up; squared sine of the path's slope; and what comes of it: distance, 0 where they overlap.
 */
export const PLANE_X = 18
export const PLANE_Y = 19
export const PLANE_A = 20
export const PLANE_B = 24
export const PLANE_TILT = 28
export const PLANE_NEAREST = 29
/** The direction from box to puck that the last search ended with, across and up, and the segments square to it, as bits. */
export const START_C = 30
export const START_S = 31
export const START_SQUARE = 32
/** Scratch of one step: how the corner moves to the left, with the disc and without, its slope and name, what is square. */
export const SHIFT = 33
export const SHIFT_BOW = 34
export const SHIFT_SLOPE = 35
export const SHIFT_CORNER = 36
export const SHIFT_SQUARE = 37
/**
 * Scratch of the search in space: the points kept, q less each, [4 x 3]; the nearest point of what they span; the stretch of
 * path, from and along; from the disc's middle to a point; weights tried and best; equations of four, [3 x 4].
 */
export const KEPT = 38
export const NEAREST = 50
export const FROM = 53
export const STRETCH = 56
export const APART = 59
export const TRIED = 62
export const BEST = 66
export const EQUATIONS = 70
export const BOX_RECORD = 82
/** The path alone, q w up: the head of a record, or a row of a table of paths. */
export const PATH_ROW = 9
