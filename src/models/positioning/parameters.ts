import { choices, quantities } from "../parameter.ts"

export const positioningQuantities = quantities({})

export const positioningChoices = choices({})
