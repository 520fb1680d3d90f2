/** Columns of the tables of a {@link Meeting} and the numbers that bound it: constants alone, so that both kernels read them. */

/** Columns of `asked`. */
export const ASKED_PHASE = 0
export const ASKED_RATE = 1

/** States of a part. */
export const UNASKED = 0
export const REFUSED = 1
/** The path comes near the part itself, or only near what its limb can reach. */
export const MET = 2
export const MET_BY_REACH = 3

/** Release u v, direction u v, distance where the path ends for the goalie, 1 / direction u (0 across), phases per s. */
export const FRAME_U = 0
export const FRAME_V = 1
export const FRAME_DU = 2
export const FRAME_DV = 3
export const FRAME_END = 4
export const FRAME_INVERSE = 5
export const FRAME_RATE = 6
/** One over the squared length of the direction: 1 but for a goalie who moves. */
export const FRAME_NORM = 7
/** How far a turn, and speed gained or lost, may shift a part's path from the frame's. */
export const FRAME_SLACK = 8
/** Where the goalie is in the rink when the puck's middle is on the plane of the goal line: place, and the unit vector faced along. */
export const FRAME_X = 9
export const FRAME_Y = 10
export const FRAME_COS = 11
export const FRAME_SIN = 12
/** Distance where the puck's middle is on the plane of the goal line; half the mouth. */
export const FRAME_LINE = 13
export const FRAME_MOUTH = 14
export const FRAME_LENGTH = 15

/** The path at the moment it is level with the part in hand: time since release, pace, and place (u, v, z). */
export const LEVEL_TIME = 0
export const LEVEL_PACE = 1
export const LEVEL_U = 2
export const LEVEL_V = 3
export const LEVEL_Z = 4
export const LEVEL_SLOPE = 5
export const LEVEL_DISTANCE = 6
/** No clearance of the part is less than this while it drops, m; 0 where that is not known. */
export const LEVEL_LEAST_GAP = 7
/** Direction of the path as this part meets it: the frame's, but for a goalie whose motion is uneven. */
export const LEVEL_DU = 8
export const LEVEL_DV = 9
/** Distance up to which this part can stop the puck. */
export const LEVEL_END = 10
export const LEVEL_LENGTH = 11

/** A path and a straight line differ by less than this over the reach of a part, m: slack of the quick refusal. */
export const BOW = 0.06
/** No part is farther from the spot between the skates than this, m. */
export const FURTHEST_PART = 0.7
/** No place that a limb reaches is farther from there, m: bounds what a turn can shift. */
export const FURTHEST_REACH = 1.3
/** What a part's own motion may add to the boxes of neighbouring key phases, m. */
export const SWAY = 0.005
/** A path flatter than this to the goalie's shoulders is not refused: cosine of its angle to straight ahead. */
export const ACROSS = 0.2
