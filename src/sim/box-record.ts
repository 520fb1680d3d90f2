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
/** Of the path: its squared length, where it passes the box's middle, and how far box and disc reach along it, both as s. */
export const PATH_LONG = 30
export const PATH_MIDDLE = 31
export const PATH_REACH = 32
/** The direction from box to puck that the last search ended with, across and up, and the segments square to it, as bits. */
export const START_C = 33
export const START_S = 34
export const START_SQUARE = 35
/** Scratch of one step: how far the corner moves to the left with the disc, its slope and name, what is square. */
export const SHIFT = 36
export const SHIFT_SLOPE = 37
export const SHIFT_CORNER = 38
export const SHIFT_SQUARE = 39
/**
 * Scratch of the search in space: the place on the path in hand, as s, and how the distance there changes along it; the middle
 * and the unit axis of the disc there; the point of the box in hand and the best so far; the way from the disc to the point,
 * its squared length, and what that leaves unproven; from the disc's axis to the point, its length 1; how stiff the square is up,
 * outward and round the axis, and all of it as a matrix, 00 11 22 01 02 12.
 */
export const PLACE = 40
export const CHANGE = 41
export const STILL = 42
export const AXIS = 45
export const POINT = 48
export const BEST = 51
export const APART = 54
export const SQUARED = 57
export const SLACK = 58
export const BESIDE = 59
export const STIFF_UP = 62
export const STIFF_OUT = 63
export const STIFF_ROUND = 64
export const MATRIX = 65
export const BOX_RECORD = 71
/** The path alone, q w up: the head of a record, or a row of a table of paths. */
export const PATH_ROW = 9
