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
/** Out: clearance in metres, zero or less where the puck touches; and s of the closest approach. */
export const CLEARANCE = 17
export const CLOSEST_AT = 18
export const BOX_RECORD = 19
/** The path alone, q w up: the head of a record, or a row of a table of paths. */
export const PATH_ROW = 9
