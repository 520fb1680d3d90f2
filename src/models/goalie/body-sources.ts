import type { Source } from "../source.ts"

/** Sources of body and gear. */
export const bodySources: Readonly<Record<string, Source>> = {
  Winter: {
    title: "Biomechanics and Motor Control of Human Movement (table of segment lengths as fractions of stature)",
    authors: "R. Drillis, R. Contini, as given by D. A. Winter",
    year: "1966",
    seen: "read",
  },
  AnsurII: {
    title: "Anthropometric survey of US Army personnel (ANSUR II), public raw data of 4082 men and 1986 women",
    authors: "Gordon et al.",
    year: "2012",
    place: "means and ratios to stature computed from the public files",
    seen: "derived",
  },
  LeagueGoalies2010: {
    title:
      "Size of 62 league goalies in late 2010: mean 6 ft 2 in (188 cm) and 198 lb (90 kg), range 5 ft 10 in to 6 ft 6 in",
    year: "2010",
    place: "ingoalmag.com",
    seen: "read",
  },
  GearNorthAmerica: {
    title:
      "ECHL, OHL and QMJHL rules 10.2, 11.2, 11.4, 11.6, 11.7 (2021-22), NCAA rules 10.2, 11.2 to 11.4 (2020-22), USA Hockey rules 301 and 303, Hockey Canada rule 3.5",
    year: "2022",
    seen: "read",
  },
  LegPadsWHL: {
    title: "WHL rule 11.2 (2019-20) and ECHL rule 11.2 (2021-22): leg pads limited by the goalie's own legs",
    year: "2022",
    seen: "read",
  },
  GearInternational: {
    title: "IIHF rules 11.2, 11.6, 11.7 (2022-23) with the stick of the 2014 edition as issued by a national league",
    year: "2022",
    seen: "read",
  },
  PadTableAUT: {
    title: "Goalkeeper measurement protocol of the Austrian-based league: pad length by stature",
    place: "gamebook.at, goalkeeper leg pads measurement",
    seen: "read",
  },
}
