import type { Zone } from "../../sim/box/openings.ts"
import type { Fate } from "../../sim/fate.ts"
import type { Limb, Region } from "../../sim/parts.ts"
import type { ReachState } from "./limb-reach.ts"

/**
 * One shot of a run told step by step: plain data, printed as it is by --json. Times are milliseconds from the release,
 * negative before it; places are in the rink frame (x out from the middle of the goal line, y to the left of a goalie
 * facing out, z up), heights are those of the puck's middle. Names end in their unit. A number that has no bound, such
 * as the time to spare of a puck that hits the body whatever the reaction, is null.
 */
export interface Story {
  readonly experiment: string
  readonly seed: string
  /** replicate:index */
  readonly shot: string
  readonly point: { readonly number: number; readonly of: number; readonly name: string; readonly baseline: boolean }
  /** How often the shot counts for this point; 1 unless shooters read the goalie. */
  readonly weight: number
  readonly release: ReleaseStory
  /** What came before the shot; null in a straight shot and for an empty net. */
  readonly before: PlayBefore | null
  /** Where the goalie is at the release; null when the net is empty. */
  readonly stand: StandStory | null
  readonly reading: ReadingStory | null
  /** What those between puck and goalie did; null in a play without any. */
  readonly traffic: TrafficStory | null
  readonly flight: FlightStory
  /** First movement of each limb, in time order; empty where no limb moves. */
  readonly limbs: readonly LimbStart[]
  /** Every part as the puck passed it, what stopped it or came nearest first; empty for a shot that is not on goal. */
  readonly passes: readonly PassStory[]
  readonly verdict: VerdictStory
  /** Null for a shot that is not on goal and for an empty net. */
  readonly reactions: ReactionsStory | null
  /** Starts of a block that cover the path; null where the shot is not blocked, as in reactions, and for a leak. */
  readonly block: BlockStory | null
  readonly standing: StandingStory | null
  /** What a save left; null where rebounds are not played and for a shot that was not saved. */
  readonly rebound: ReboundStory | null
}

export interface ReleaseStory {
  /** Label of the place, "" when the play has a single one without a name. */
  readonly spot: string
  readonly xM: number
  readonly yM: number
  readonly heightCm: number
  /** From the middle of the goal line. */
  readonly distanceM: number
  readonly distanceFt: number
  /** Off straight ahead, positive to the goalie's left. */
  readonly angleDegrees: number
  readonly shotType: string
  readonly hurried: boolean
  readonly aim: { readonly yCm: number; readonly heightCm: number; readonly zone: Zone }
  /** The place aimed at could not be reached at this speed; the nearest that can was. */
  readonly unreachable: boolean
  readonly speedKmH: number
  readonly speedMph: number
}

export interface StandStory {
  readonly stance: string
  readonly hands: string
  /** Depth taken, asked for, and whether it was cut as the puck was too near. */
  readonly depthM: number
  readonly askedM: number
  readonly cut: boolean
  readonly xM: number
  readonly yM: number
  /** Off the line from the puck to the middle of the goal line, positive to the goalie's left. */
  readonly offLineCm: number
  /** Off facing the puck, positive to the goalie's left. */
  readonly turnedDegrees: number
  /** Share of the mouth that the puck sees covered at the release. */
  readonly netCovered: number
  /** Still moving, or not yet set again. */
  readonly notSet: boolean
  /** What the movement has opened, beside the set stance; null for a goalie who is set on the feet. */
  readonly opened: OpenedStory | null
}

/** How a movement has left the body of a goalie at the release. */
export interface OpenedStory {
  readonly by: string
  /** Of what that movement opens at its fullest. */
  readonly share: number
  /** Five-hole and feet wider, gloves further out, blade off the ice, trunk further forward. */
  readonly legsCm: number
  readonly handsCm: number
  readonly bladeCm: number
  readonly leanDegrees: number
  /** For how long a goalie who slides has been going down; null on the feet. */
  readonly downForMs: number | null
}

/** The play before the shot and the goalie's way through it. Null where there is no such moment. */
export interface PlayBefore {
  /** Where the puck is when the play starts. */
  readonly fromXM: number
  readonly fromYM: number
  readonly legs: readonly LegStory[]
  /** First movement, set again, and on the line to the new place of the puck. */
  readonly firstMoveMs: number | null
  readonly setMs: number | null
  readonly onAngleMs: number | null
  readonly speedAtReleaseMS: number
}

/** The puck passed, carried, or cut aside; where it gets, and when it goes and is there. */
export interface LegStory {
  readonly does: "pass" | "carry" | "cut"
  readonly toXM: number
  readonly toYM: number
  readonly startMs: number
  readonly endMs: number
  readonly speedMS: number
  /** Where the goalie is when it ends, from the middle of the goal line, and how fast. */
  readonly goalieOutM: number
  readonly goalieSpeedMS: number
}

export interface ReadingStory {
  readonly answer: "reaction" | "block" | "frozen"
  /** Chance that a shot which takes this long to the body is blocked. */
  readonly blockShare: number
  /** When the release can be read from: the reaction runs from here; late for a goalie who is not set. */
  readonly readFromMs: number
  readonly reactionMs: number
  readonly medianReactionMs: number
  readonly handsStartMs: number | null
  readonly dropStartMs: number | null
  /** When the drop is over, and the share of a whole drop it is. */
  readonly dropEndMs: number | null
  readonly dropShare: number
  /** This puck squeezes through a part that covers it. */
  readonly squeezes: boolean
  /** The drop is that of a butterfly slide, begun with its push. */
  readonly slides: boolean
}

export interface FlightStory {
  readonly fate: Fate
  readonly iceTouches: readonly { readonly timeMs: number; readonly fromGoalLineM: number; readonly hops: boolean }[]
  /** Level with the spot between the skates; null when the net is empty. */
  readonly atBody: { readonly timeMs: number; readonly heightCm: number } | null
  /** Where it would cross the plane of the goal line with nobody and no iron there; null when it never does. */
  readonly atLine: {
    readonly timeMs: number
    readonly yCm: number
    readonly heightCm: number
    readonly speedKmH: number
    /** From the place aimed at. */
    readonly offAimCm: number
  } | null
}

export interface LimbStart {
  readonly limb: Limb
  readonly startMs: number
}

export interface PassStory {
  readonly part: string
  readonly region: Region
  readonly timeMs: number
  /** From where the drop has the part; zero or less is a touch. */
  readonly clearanceCm: number
  /** For a touch: the smallest shift of the shot that would have cleared the part. */
  readonly insideCm: number | null
  readonly limb: LimbStory | null
  readonly stops: boolean
  /** By how much the part stopped the puck (positive) or let it by (negative), limb included. */
  readonly marginCm: number
}

export interface LimbStory {
  readonly limb: Limb
  readonly state: ReachState
  readonly wayToGoCm: number
  readonly movedCm: number
  readonly placementErrorCm: number
  readonly marginCm: number | null
}

export interface VerdictStory {
  readonly outcome: "save" | "goal" | "iron, out" | "miss" | "short" | "blocked" | "no shot"
  /** For a goal: where it went in; `offIron` tells of a post or the bar on the way. */
  readonly goal: {
    readonly zone: Zone
    readonly yCm: number
    readonly heightCm: number
    readonly offIron: boolean
  } | null
  /** Part that stopped it, or came nearest. */
  readonly by: { readonly part: string; readonly region: Region; readonly limb: Limb | null } | null
  readonly byCm: number | null
  /** Time to spare, or missed by; null when no other start would change it. */
  readonly byMs: number | null
  readonly way: "late" | "early" | null
  /** For a miss: clear of the nearest iron by this much, and which; for iron: which. */
  readonly iron: { readonly which: "left post" | "right post" | "crossbar"; readonly byCm: number | null } | null
  /** The body measured step by step says otherwise than the run's own rule: too near to call. */
  readonly knifeEdge: boolean
}

export interface ReactionsStory {
  /** Chance of a save over all of the goalie's reactions, with block or reaction and the lead of a block as drawn. */
  readonly probability: number
  /** What the run adds up for this shot: the same over block and reaction, and over the leads of a block. */
  readonly countedProbability: number
  readonly saving: readonly {
    readonly fromMs: number | null
    readonly toMs: number | null
    readonly reactionFromMs: number | null
    readonly reactionToMs: number | null
    readonly region: Region
    readonly limb: Limb | null
    readonly probability: number
    /** The reaction drawn for this shot is one of these. */
    readonly drawn: boolean
  }[]
}

/** Of all starts of a block, from the longest lead to the release, those for which the body covers the path. */
export interface BlockStory {
  readonly earliestMs: number
  readonly coveredShare: number
  readonly covering: readonly { readonly fromMs: number; readonly toMs: number; readonly region: Region }[]
  /** How far the drawn start is from the nearest end of those that cover; null when no start would change it. */
  readonly byMs: number | null
  readonly way: "late" | "early" | null
}

/** The body frozen as it stands at the release. */
export interface StandingStory {
  readonly stops: boolean
  readonly part: string
  /** Inside the part's edge for a stop, past the nearest part otherwise. */
  readonly byCm: number
}

/** What a save left, and what came of it. Times are milliseconds from the first release, or from the tip. */
export interface ReboundStory {
  readonly part: string
  readonly saveMs: number
  /** The goalie holds the puck: nothing follows. */
  readonly held: boolean
  /** Speed off the part, and its direction off straight out, positive to the goalie's left; null for a held puck. */
  readonly leavesKmH: number | null
  readonly leavesDegrees: number | null
  readonly ends: "held" | "out of play" | "covered" | "cleared" | "shot again"
  readonly endsMs: number | null
  readonly endsXM: number | null
  readonly endsYM: number | null
  readonly second: SecondStory | null
}

export interface SecondStory {
  readonly releaseMs: number
  readonly fromXM: number
  readonly fromYM: number
  readonly speedKmH: number
  /** The goalie is still on the knees. */
  readonly down: boolean
  readonly outcome: "save" | "goal" | "miss" | "iron"
  readonly by: string | null
}

/** What those between puck and goalie did to a shot. Times of a tipped shot count from the tip. */
export interface TrafficStory {
  /** How long after it left the shooter's stick the puck was tipped; null where it was not. */
  readonly tippedAfterMs: number | null
  /** When the puck comes into sight to stay, and when it is level with the goalie; null without a goalie or off goal. */
  readonly seenMs: number | null
  readonly atBodyMs: number | null
}
