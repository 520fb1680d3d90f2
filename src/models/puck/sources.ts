import type { Source } from "../source.ts"

/** Sources of the puck model. */
export const puckSources: Readonly<Record<string, Source>> = {
  PuckECHL2021: { title: "ECHL Official Rules 2021-2022, rule 13.1", year: "2021", seen: "read" },
  PuckUSAH306: { title: "USA Hockey Official Rules, rule 306", seen: "quoted" },
  DiscAerodynamics: {
    title: "shotshaper, disc aerodynamics from computed flow (discs/cd1.yaml)",
    seen: "read",
  },
  PuckTests2008: {
    title: "Experimental characterization of ice hockey sticks and pucks",
    authors: "Anderson",
    year: "2008",
    place: "MSc thesis, Washington State University",
    seen: "read",
  },
}
