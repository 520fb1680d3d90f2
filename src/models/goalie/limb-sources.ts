import type { Source } from "../source.ts"

/** Sources of how a limb moves; both laws are quoted from memory, their numbers are parameters of their own. */
export const limbSources: Readonly<Record<string, Source>> = {
  FlashHogan1985: {
    title: "The coordination of arm movements: an experimentally confirmed mathematical model (minimum jerk)",
    authors: "Flash, Hogan",
    year: "1985",
    place: "Journal of Neuroscience 5, 1688-1703",
    seen: "memory",
  },
  Schmidt1979: {
    title: "Motor-output variability: a theory for the accuracy of rapid motor acts",
    authors: "Schmidt, Zelaznik, Hawkins, Frank, Quinn",
    year: "1979",
    place: "Psychological Review 86, 415-451",
    seen: "memory",
  },
}
