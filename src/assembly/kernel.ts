import { collectCover, collectSaves } from "./collect.ts"
import { decide } from "./decide.ts"

/** What the compiled kernel exports beside its memory. */
export { collectCover, collectSaves, decide }
