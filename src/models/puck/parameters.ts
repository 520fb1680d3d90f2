import { choices, quantities } from "../parameter.ts"

export const puckQuantities = quantities({})

export const puckChoices = choices({})
