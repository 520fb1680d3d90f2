import type { Source } from "../source.ts"

/** Sources of the timing parameters. */
export const timingSources: Readonly<Record<string, Source>> = {
  SimpleReaction: {
    title: "Lecture notes on reaction time quoting the reaction-time literature: simple visual reaction about 190 ms",
    place: "knowt.com note 2bada2b5",
    seen: "read",
  },
  ButterflyDrop: {
    title:
      "Quantifying ice hockey goaltender leg pad kinematics (peak drop velocity 2.82, 3.00, 3.05 m/s; drop time by free fall)",
    authors: "Frayne et al.",
    year: "2016",
    seen: "derived",
  },
}
