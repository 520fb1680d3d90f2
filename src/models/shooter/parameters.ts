import { choices, quantities } from "../parameter.ts"

export const shooterQuantities = quantities({})

export const shooterChoices = choices({})
