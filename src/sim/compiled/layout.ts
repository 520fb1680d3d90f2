/**
 * Where everything stands in the memory of the compiled kernel, in bytes unless a comment says otherwise: constants alone,
 * so that both sides read them. What a shot brings comes first, then the answer, then the work, then the postures.
 */

/** Parts and key phases of a posture at most: one with more is left to the kernel beside this one. */
export const MOST_PARTS = 32
export const MOST_PHASES = 10

/** The clocks and draws of a shot: numbers in these columns. */
export const MOMENT = 1024
export const MOMENT_READ = 0
export const MOMENT_DROP_LEAD = 1
export const MOMENT_DROP_TIME = 2
export const MOMENT_LAST_PHASE = 3
export const MOMENT_LONGEST_LEAD = 4
export const MOMENT_BLOCK_LEAD = 5
/** 1 or 0 each; the last is also written, see Moment.stands. */
export const MOMENT_LEAKS = 6
export const MOMENT_FROZEN = 7
export const MOMENT_STANDS = 8
/** 1 where the goalie's motion is uneven while the puck passes, and when the path begins in that timeline. */
export const MOMENT_UNEVEN = 9
export const MOMENT_BEGINS = 10
/** The reaction, lognormal: median and spread; share of blocks, the lead of one as drawn, the last phase of a reaction. */
export const MOMENT_MEDIAN = 11
export const MOMENT_SPREAD = 12
export const MOMENT_BLOCK_SHARE = 13
export const MOMENT_DRAWN_LEAD = 14
export const MOMENT_REACT_PHASE = 15
/** One error length a limb. */
export const MOMENT_ERRORS = 16
export const MOMENT_LENGTH = 22

/** The goalie met: a count that tells one from the next, then the path in the goalie's frame, see FRAME_… */
export const TURN = 1216
export const FRAME = 1232

/** The path of the puck, see path.ts. */
export const PATH = 1360

/** The saving reactions found and, for a block, the moments of its start that cover. */
export const SAVES = 2064
export const COVER = 4608
/** Of each: how many stretches, whether one is certain, and the columns of the stretches. */
export const STRETCH_COUNT = 0
export const STRETCH_CERTAIN = 4
export const STRETCH_LO = 8
export const STRETCH_HI = 776
export const STRETCH_WHEN = 1544
export const STRETCH_REGION = 2312
export const STRETCH_LIMB = 2408
export const MOST_STRETCHES = 96

/** State of a goalie under work, and the part in hand. */
export const STATE = 7168
export const HAND = 7232
/** The last node of the drop of the part in hand, in key phases, how many nodes, and the clearance there or NaN. */
export const HAND_LAST = 8
export const HAND_LANDED = 16
export const HAND_NODES = 24
/** Key phases of the posture in hand. */
export const HAND_PHASES = 28
/** Where the last search of a distance ended: its direction, two numbers, and what was square to it. */
export const HAND_START = 32
export const HAND_SQUARE = 48
/** [4] what box and disc show along the path in hand, across and up. */
export const HAND_ACROSS = 64
export const HAND_UP = 96
/** Scratch of one step of that search: two numbers and two names, see shiftSquare. */
export const HAND_SHIFT = 128

/** The answer: probability of a save, what of it a block adds, and each region's own part. */
export const OUTCOME = 7424
export const OUTCOME_SAVED = 0
export const OUTCOME_BY_BLOCK = 8
export const OUTCOME_BY_REGION = 16
export const OUTCOME_NUMBERS = 11

/** The timeline of a goalie whose motion is uneven. */
export const TIMELINE = 8192

/** [2 x MOST_STRETCHES] ends of stretches in order. */
export const ENDS = 34304

/** A record of path, box and disc where the distance between them is sought in space: numbers, columns as in box-record.ts. */
export const RECORD = 35840

/** What is known of each part for the goalie met. */
export const MET_PARTS = 36864
export const MET_STRIDE = 784
/** Columns of the path at the moment it is level with the part stand at the start, see LEVEL_… */
export const MET_TURN = 88
export const MET_STATE = 96
export const MET_KNOWN = 100
export const MET_LEAST = 104
export const MET_MOST = 112
/** [16] each, a byte a phase: whether the path is in the part's axes, whether the clearance is measured, whether it covers. */
export const MET_FILLED = 128
export const MET_MEASURED = 144
export const MET_COVERS = 160
/** [MOST_PHASES] clearances, then the path in the part's axes: q0 q1, w0 w1, q2 w2. */
export const MET_GAPS = 176
export const MET_LOCAL = 304
export const LOCAL_STRIDE = 48

/** The cumulative normal and its density, see random/fast-normal.ts. */
export const NORMAL = 61952

/** Radius and half thickness of the puck's disc. */
export const DISC_RADIUS = 70176
export const DISC_HALF = 70184

/** Postures, one behind the other, each as long as its parts. */
export const POSTURES = 70192
export const POSTURE_COUNT = 0
export const POSTURE_PHASES = 4
/** [MOST_PARTS] parts from the foremost to the rearmost, a byte each. */
export const POSTURE_ORDER = 8
/** [LIMBS x LIMB_STRIDE] and [MOST_PHASES x LIMBS x 3] numbers. */
export const POSTURE_LIMBS = 40
export const POSTURE_ROOTS = 616
export const POSTURE_PARTS = 2064
/** Bounds as in prepared.ts, nine numbers; region and limb; the place of the limb's numbers; u and v of the middle. */
export const PART_BOUNDS = 0
export const PART_REGION = 72
export const PART_LIMB = 76
export const PART_MIDDLE = 80
export const PART_SIZES = 96
export const PART_ROUNDING = 120
export const PART_MOVES = 128
/** [MOST_PHASES] axes and centre at each key phase: a0u a1u, a0v a1v, a0z a1z, a2u a2v, a2z cu, cv cz. */
export const PART_ROWS = 256
export const ROW_STRIDE = 96
/** [MOST_PHASES] boxes as in prepared.ts. */
export const PART_BOXES = 1216
export const BOX_STRIDE = 48
export const PART_BYTES = 1696
export const PAGE_BYTES = 65536
