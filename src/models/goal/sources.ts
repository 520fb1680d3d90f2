import type { Source } from "../source.ts"

/** Sources of the goal model. */
export const goalSources: Readonly<Record<string, Source>> = {
  GoalECHL2021: {
    title: "ECHL Official Rules 2021-2022, rules 2.1 and 78.4 and dimensioned drawing of the goal",
    year: "2021",
    seen: "read",
  },
  GoalIIHF2023: { title: "IIHF Official Rule Book 2023/24, rule 2.1", year: "2023", seen: "read" },
  GoalRule130: {
    title: "IIHF rule 130 (older numbering), as quoted on a page about the goal",
    place: "de.zxc.wiki",
    seen: "quoted",
  },
}
