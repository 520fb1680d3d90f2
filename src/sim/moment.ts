import { clearanceMoving, needGap } from "./clearance.ts"
import * as limbColumns from "./limb.ts"
import type { Meeting } from "./meeting.ts"
import type { Posture } from "./parts.ts"
import type { Seconds } from "./units.ts"

/** What decides one shot besides the reaction: fixed draws and clocks, refilled for each pose and shot. */
export interface Moment {
  /** Seconds before the release that of the reaction have already passed: bounds the earliest start of the hands. */
  read: Seconds
  dropLead: Seconds
  dropTime: Seconds
  /** Phase, 0 to 1, at which the drop stops (1, or less for a high puck). */
  lastPhase: number
  /** Share of such shots that are blocked, this shot's lead if it is, and its last phase if it is not. */
  blockShare: number
  drawnLead: Seconds
  longestLead: Seconds
  reactPhase: number
  /** The drop began this long before the release, whatever the hands do; REACTS when it waits for the reaction. */
  blockLead: Seconds
  /** Such a drop answers the first flight of a tipped shot and anticipates nothing. */
  committed: boolean
  /** When the path's clock starts, s after the release: at the tip of a tipped shot. */
  begins: Seconds
  /** From when on the puck is in sight, and its time to the body, s on the path's clock. */
  sight: Seconds
  flight: Seconds
  /** A covering body lets this puck squeeze through. */
  leaks: boolean
  frozen: boolean
  /** Where this shot's limb errors start in `draws`. */
  errors: number
  draws: Float64Array
  /** Set when the standing body, without drop or limbs, stops the puck. */
  stands: boolean
  /** Nodes of the drop of the part in hand: its key phases up to the last phase, in key phases, at which it stops. */
  nodes: number
  last: number
  /** Clearance at that last phase, NaN where not measured, and at the ends of the interval in hand: scratch. */
  readonly landed: Float64Array
  readonly ends: Float64Array
  /** A limb's trial in hand, see TRIAL_…: scratch. */
  readonly trial: Float64Array
}

/** As a block's lead: the drop waits for the reaction. A drop that the clock starts starts within a second. */
export const REACTS = -1

export function moment(): Moment {
  return {
    read: 0,
    dropLead: 0,
    dropTime: 0.3,
    lastPhase: 1,
    blockShare: 0,
    drawnLead: 0,
    longestLead: 0,
    reactPhase: 1,
    blockLead: REACTS,
    committed: false,
    begins: 0,
    sight: 0,
    flight: 0,
    leaks: false,
    frozen: false,
    errors: 0,
    draws: new Float64Array(0),
    stands: false,
    nodes: 0,
    last: 0,
    landed: new Float64Array(1),
    ends: new Float64Array(2),
    trial: new Float64Array(limbColumns.TRIAL_LENGTH),
  }
}

/** When the drop starts for hands that start at `hands`, s after the release; Infinity where it never does. */
export function dropStart(now: Moment, hands: Seconds): Seconds {
  if (now.frozen) return Infinity
  return now.blockLead > REACTS ? -now.blockLead : hands - now.dropLead
}

/** Writes to `out[at]` the clearance at node j: of the body on its way down, or come to rest at the last. */
export function nodeGap(m: Meeting, posture: Posture, now: Moment, j: number, out: Float64Array, at: number): void {
  if (j < now.nodes - 1 || now.last === posture.phases - 1) {
    needGap(m, j)
    out[at] = m.gaps[m.row + j]!
    return
  }
  if (Number.isNaN(now.landed[0]!)) now.landed[0] = clearanceMoving(m, now.last, posture.phases, 0)
  out[at] = now.landed[0]!
}
