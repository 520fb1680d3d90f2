import type { Source } from "../source.ts"

/** Sources of the rink model. */
export const rinkSources: Readonly<Record<string, Source>> = {
  ECHL2021: {
    title: "ECHL Official Rules 2021-2022, rules 1 and 2 and dimensioned drawings",
    year: "2021",
    seen: "read",
  },
  WHL2019: { title: "Western Hockey League Official Rules 2019-2020, rules 1.1 to 1.9", year: "2019", seen: "read" },
  NHLRulesOnline: {
    title: "Official Rules, per-rule pages of the 60-ft end zones, rules 4 and 5",
    place: "nhlofficials.com",
    seen: "read",
  },
  QMJHL2021: {
    title: "Quebec Major Junior Hockey League Official Rules 2021-2022, rule 1.7",
    year: "2021",
    seen: "read",
  },
  NCAA2021: {
    title: "NCAA Men's and Women's Ice Hockey Rules Book 2020-21 and 2021-22, rule 1 and drawing",
    year: "2021",
    seen: "read",
  },
  IIHF2023: { title: "IIHF Official Rule Book 2023/24, rules 1 and 27.8", year: "2023", seen: "read" },
  IIHFDrawing2014: {
    title: "Official rink drawing of the IIHF Official Rule Book 2014-2018",
    year: "2014",
    seen: "read",
  },
  IIHFCrease2014: {
    title: "IIHF Official Rule Book 2014-2018, rule 19, as re-issued in a national league's infrastructure protocol",
    year: "2014",
    place: "gamebook.at",
    seen: "read",
  },
  SwedishFacilities2022: {
    title: "Regelbok Anläggningar 2022/2023, figure 1",
    authors: "Swedish Ice Hockey Association",
    year: "2022",
    seen: "read",
  },
  CreaseReport2018: {
    title: "DEL: offizielle Regeländerungen für die Saison 2018/19 (crease 2.44 m wide, 3 cm farther out)",
    year: "2018",
    place: "sport1.de",
    seen: "quoted",
  },
  FIN2014: {
    title: "Finnish federation notice on the rink rules of 2014 (shorter rinks)",
    year: "2014",
    seen: "read",
  },
  GoaltendingUSAH: {
    title: "Goaltending: positioning and depth levels",
    authors: "USA Hockey",
    seen: "read",
  },
}
