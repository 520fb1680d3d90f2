import { goalChoices, goalQuantities } from "./goal/parameters.ts"
import { goalieChoices, goalieQuantities } from "./goalie/parameters.ts"
import { movementChoices, movementQuantities } from "./movement/parameters.ts"
import type { Origin } from "./plays/origin.ts"
import { playsChoices, playsQuantities } from "./plays/parameters.ts"
import type { TimedEvent } from "./plays/timed-event.ts"
import { positioningChoices, positioningQuantities } from "./positioning/parameters.ts"
import { puckChoices, puckQuantities } from "./puck/parameters.ts"
import { referenceChoices, referenceQuantities } from "./reference/parameters.ts"
import { rinkChoices, rinkQuantities } from "./rink/parameters.ts"
import { shooterChoices, shooterQuantities } from "./shooter/parameters.ts"

/** Every quantity of the model, by dotted key: `goalie.depth`, `shooter.aim_error`, … */
export const QUANTITIES = {
  ...rinkQuantities,
  ...goalQuantities,
  ...puckQuantities,
  ...shooterQuantities,
  ...goalieQuantities,
  ...positioningQuantities,
  ...playsQuantities,
  ...movementQuantities,
  ...referenceQuantities,
} as const
/** Every choice among named alternatives, by dotted key: `goalie.stance`, `shooter.aim`, … */
export const CHOICES = {
  ...rinkChoices,
  ...goalChoices,
  ...puckChoices,
  ...shooterChoices,
  ...goalieChoices,
  ...positioningChoices,
  ...playsChoices,
  ...movementChoices,
  ...referenceChoices,
} as const
export type QuantityKey = keyof typeof QUANTITIES
export type ChoiceKey = keyof typeof CHOICES
/** The names one choice may take. */
export type ChoiceName<Key extends ChoiceKey> = (typeof CHOICES)[Key]["names"][number]

/**
 * One fully resolved design point: every quantity in SI, every choice by name, and the places shots come from.
 * Plain data, structured-clone safe; nothing here is text to be parsed.
 */
export interface Settings {
  readonly quantities: Readonly<Record<QuantityKey, number>>
  readonly choices: Readonly<Record<ChoiceKey, string>>
  /** Empty: one spot at `play.distance` and `play.angle`. */
  readonly origins: readonly Origin[]
  /** A play that a person wrote down, for `play.kind: timed events`; empty otherwise. */
  readonly events: readonly TimedEvent[]
}

/** The default of every quantity and choice. */
export function defaultSettings(): Settings {
  const numbers: Record<string, number> = {}
  for (const [key, quantity] of Object.entries(QUANTITIES)) numbers[key] = quantity.value
  const names: Record<string, string> = {}
  for (const [key, choice] of Object.entries(CHOICES)) names[key] = choice.value
  return { quantities: numbers, choices: names, origins: [], events: [] } as unknown as Settings
}

/** A copy with some quantities and choices changed. */
export function withSettings(
  base: Settings,
  changes: {
    readonly quantities?: Partial<Record<QuantityKey, number>>
    readonly choices?: Partial<Record<ChoiceKey, string>>
    readonly origins?: readonly Origin[]
    readonly events?: readonly TimedEvent[]
  },
): Settings {
  return {
    quantities: { ...base.quantities, ...changes.quantities },
    choices: { ...base.choices, ...changes.choices },
    origins: changes.origins ?? base.origins,
    events: changes.events ?? base.events,
  }
}
