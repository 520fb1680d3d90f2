import { choices, quantities } from "../parameter.ts"

export const goalQuantities = quantities({})

export const goalChoices = choices({})
