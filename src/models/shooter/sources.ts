import type { Source } from "../source.ts"

/** Sources of the shooter model. */
export const shooterSources: Readonly<Record<string, Source>> = {
  Woo2008: {
    title: "The ice hockey slap shot, elite versus recreational",
    authors: "Woo, Loh, Turcotte, Pearsall",
    year: "2008",
    place: "International Society of Biomechanics in Sports, ojs.ub.uni-konstanz.de/cpa/article/view/1368",
    seen: "read",
  },
  Villasenor2006: {
    title: "Recoil effect of the ice hockey stick during a slap shot",
    authors: "Villasenor, Turcotte, Pearsall",
    year: "2006",
    place: "Journal of Applied Biomechanics 22(3):202",
    seen: "read",
  },
  CampRadar2008: {
    title: "Radar readings of professional prospects at a development camp, best shot of each",
    year: "2008",
    place: "web report of the camp",
    seen: "read",
  },
  Kruisselbrink2008: {
    title: "On-ice slap shots faced by goalies from 48 ft, presentation 1974",
    authors: "Kruisselbrink, Cairns, Walsh, Kontzie",
    year: "2008",
    place: "American College of Sports Medicine, 55th meeting; coachsci.sdsu.edu/csa/vol155/kruissel.htm",
    seen: "read",
  },
  MichaudPaquette2009: {
    title: "Predictors of scoring accuracy: ice hockey wrist shot mechanics",
    authors: "Michaud-Paquette, Pearsall, Turcotte",
    year: "2009",
    place: "Sports Engineering 11:75-84, with the MSc thesis McGill 2008 (title from memory)",
    seen: "quoted",
  },
  Alexander1963: {
    title: "Comparison of the ice hockey wrist and slap shots for speed and accuracy (title from memory)",
    authors: "Alexander, Haddow, Schultz",
    year: "1963",
    place: "Research Quarterly 34:259-266",
    seen: "quoted",
  },
}
