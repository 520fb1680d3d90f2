/** What stands with anything that sends a goalie onto the ice to be timed. */
export const MEASURE_CAUTIONS =
  "Cautions: full gear and a certified mask, warmed up, supervised, no shots while timing; rest between trials and stop when form goes; count the drops and slides, hips take them; local rules, facility rules and licensed practice come first"
