import type { Kilograms, PerMetre } from "../../sim/units.ts"
import {
  DRAG,
  ICE_FRICTION,
  ICE_RESTITUTION,
  LIFT,
  PUCK_HALF_THICKNESS,
  PUCK_RADIUS,
  SLIDE_THRESHOLD,
} from "../../sim/world.ts"
import type { Settings } from "../settings.ts"
import { airDensity } from "./air.ts"

/** Mass of the puck the settings name. */
export function puckMass(settings: Settings): Kilograms {
  return settings.quantities[settings.choices["puck.kind"] === "youth" ? "puck.youth_mass" : "puck.mass"]
}

/** Drag factor k = rho Cd A / 2m of a puck that flies edge-on, A its diameter times its thickness. */
export function dragFactor(settings: Settings): PerMetre {
  const q = settings.quantities
  const area = q["puck.diameter"] * q["puck.thickness"]
  return (airDensityOf(settings) * q["puck.drag_coefficient"] * area) / (2 * puckMass(settings))
}

/** Lift factor l = rho Cl A / 2m, A the flat face of the puck. */
export function liftFactor(settings: Settings): PerMetre {
  const q = settings.quantities
  const area = 0.25 * Math.PI * q["puck.diameter"] * q["puck.diameter"]
  return (airDensityOf(settings) * q["puck.lift_coefficient"] * area) / (2 * puckMass(settings))
}

function airDensityOf(settings: Settings): number {
  return airDensity(settings.quantities["rink.temperature"], settings.quantities["rink.altitude"])
}

/** Writes the columns of a world that belong to the puck: its size, how air slows it and what ice does to it. */
export function fillPuck(world: Float64Array, settings: Settings): void {
  const q = settings.quantities
  world[DRAG] = dragFactor(settings)
  world[LIFT] = liftFactor(settings)
  world[PUCK_RADIUS] = 0.5 * q["puck.diameter"]
  world[PUCK_HALF_THICKNESS] = 0.5 * q["puck.thickness"]
  world[ICE_FRICTION] = q["puck.ice_friction"]
  world[ICE_RESTITUTION] = q["puck.ice_restitution"]
  world[SLIDE_THRESHOLD] = q["puck.slide_threshold"]
}
