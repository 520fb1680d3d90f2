import { choices, quantities } from "../parameter.ts"

export const rinkQuantities = quantities({})

export const rinkChoices = choices({})
