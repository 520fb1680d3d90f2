/**
 * The world a shot flies through, as one flat table of numbers: air, ice, puck and iron. Models fill it once for each
 * scene; every kernel reads it by these columns. SI.
 */

/** Acceleration of gravity, m/s². */
export const GRAVITY = 0
/** Drag factor k = rho Cd A / 2m, per metre: drag slows the puck by k v². Zero is allowed and gives the parabola. */
export const DRAG = 1
/** Lift factor rho Cl A / 2m, per metre, square to the path in its vertical plane, positive up. Zero by default. */
export const LIFT = 2
/** Kinetic friction of puck on ice. */
export const ICE_FRICTION = 3
/** Restitution of puck on ice. */
export const ICE_RESTITUTION = 4
/** Rebound off the ice slower than this does not hop but slides, m/s. */
export const SLIDE_THRESHOLD = 5
/** Puck: a level disc, its z is the height of its centre, m. */
export const PUCK_RADIUS = 6
export const PUCK_HALF_THICKNESS = 7
/** Half the opening between the posts, and the opening from the ice to the underside of the bar, m. */
export const MOUTH_HALF_WIDTH = 8
export const MOUTH_HEIGHT = 9
/** Radii of posts and crossbar, m. */
export const POST_RADIUS = 10
export const BAR_RADIUS = 11
/** Restitution and friction of puck on iron. */
export const IRON_RESTITUTION = 12
export const IRON_FRICTION = 13

/** Numbers in a world table. */
export const WORLD_LENGTH = 14
