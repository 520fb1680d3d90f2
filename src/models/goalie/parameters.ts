import { choices, quantities } from "../parameter.ts"
import { bodyChoices, bodyQuantities } from "./body-parameters.ts"
import { gearChoices, gearQuantities } from "./gear-parameters.ts"
import { limbQuantities } from "./limb-parameters.ts"
import { reboundControlQuantities } from "./rebound-control-parameters.ts"
import { stanceChoices, stanceQuantities } from "./stance-parameters.ts"
import { timingChoices, timingQuantities } from "./timing-parameters.ts"

export const goalieQuantities = quantities({
  ...bodyQuantities,
  ...gearQuantities,
  ...stanceQuantities,
  ...limbQuantities,
  ...timingQuantities,
  ...reboundControlQuantities,
})

export const goalieChoices = choices({
  ...bodyChoices,
  ...gearChoices,
  ...stanceChoices,
  ...timingChoices,
})
