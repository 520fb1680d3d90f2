import { choices, quantities } from "../parameter.ts"

export const playsQuantities = quantities({})

export const playsChoices = choices({})
