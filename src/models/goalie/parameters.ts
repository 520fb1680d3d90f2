import { choices, quantities } from "../parameter.ts"

export const goalieQuantities = quantities({})

export const goalieChoices = choices({})
