import type { Leg } from "../../sim/play/course.ts"
import { passTime } from "../../sim/play/timing.ts"
import type { Metres, Seconds } from "../../sim/units.ts"
import type { Settings } from "../settings.ts"
import { carryTo, cutTo, type PlayBranch, passTo, shotFrom } from "./branch.ts"
import type { TimedEvent } from "./timed-event.ts"
import { worldOf } from "./world.ts"

/** An event in which the puck goes somewhere. */
export type MovingEvent = Extract<TimedEvent, { readonly does: "carry" | "cut" | "pass" }>

interface Place {
  readonly x: Metres
  readonly y: Metres
}

/**
 * The play of timed events: a leg for each carry, cut and pass, each followed by the wait until the next event. Pass
 * speeds vary from shot to shot as any pass does, and what follows a pass waits for it.
 * @throws RangeError for events that are no play: no puck first, or no shot last
 */
export function timedEvents(settings: Settings): PlayBranch[] {
  const { events, quantities: q } = settings
  const first = events[0]
  const last = events.at(-1)
  if (first?.does !== "puck" || last?.does !== "shot")
    throw new RangeError(
      `Cannot play timed events as they must begin with the puck and end with a shot: current value is ${events.length} events`,
    )
  let from: Place = first
  const legs: Leg[] = []
  for (const [i, event] of events.entries()) {
    if (event.does === "puck" || event.does === "shot") continue
    const wait = Math.max(0, events[i + 1]!.at - arrivalOf(event, from, settings))
    legs.push(legOf(event, from, wait, settings))
    from = event
  }
  const shot = shotFrom(settings, from, last.type ?? undefined)
  return [
    { name: "spot", share: 1, start: { x: first.x, y: first.y }, legs, lost: q["play.pass_lost"], settings: shot },
  ]
}

/** When the puck of a moving event, starting at `from`, is where it goes; Infinity for a pass that stops on its way. */
export function arrivalOf(event: MovingEvent, from: Place, settings: Settings): Seconds {
  if (event.does !== "pass") return event.arrives
  const distance = Math.hypot(event.x - from.x, event.y - from.y)
  const speed = event.speed ?? settings.quantities["play.pass_speed"]
  return event.at + passTime(worldOf(settings), speed, event.flies, distance)
}

/** A carry is as fast as its times say, a pass as fast as it is played. */
function legOf(event: MovingEvent, from: Place, wait: Seconds, settings: Settings): Leg {
  const q = settings.quantities
  if (event.does === "pass") {
    const speed = event.speed ?? q["play.pass_speed"]
    return passTo(event, speed, q["play.pass_speed_spread"] * speed, event.flies, wait, q["play.receive_spread"])
  }
  const pace = Math.hypot(event.x - from.x, event.y - from.y) / (event.arrives - event.at)
  return event.does === "carry" ? carryTo(event, pace, 0, wait) : cutTo(event, pace, 0, wait)
}
