import { MEASURE_KEYS } from "../../models/reference/measured.ts"
import type { RinkMeasures } from "../../models/rink/chosen-rink.ts"
import type { ChoiceKey, QuantityKey } from "../../models/settings.ts"
import { type Field, keysOf, SETTING_KEYS } from "../grammar.ts"

/** Keys of a rink file beside the settings. */
export const SURVEY_FIELDS = [
  { key: "name", why: "What the survey calls the rink" },
  { key: "about", why: "A remark about the rink" },
  { key: "rink", why: "Sheet of a rule book; its marks as measured go under rink.end_spot_out and so on" },
  { key: "home", why: "Sheet on which the goalie learned where the marks are, or this rink" },
  { key: "home.preset", why: "The same, where some of its marks were measured" },
  { key: "spots", why: "Usual shooting spots: a list, or a CSV file; absent means slot, end-zone spots and points" },
] as const satisfies readonly Field[]

/** Measures of the home rink, each with the setting that has its limits. */
export const HOME_MEASURES: readonly {
  readonly key: string
  readonly measure: keyof RinkMeasures
  readonly setting: QuantityKey
}[] = (Object.entries(MEASURE_KEYS) as [keyof RinkMeasures, QuantityKey][]).map(([measure, setting]) => ({
  key: setting.replace(/^rink/, "home"),
  measure,
  setting,
}))

/** Settings beside those of the rink and of the cues on which an answer depends. */
const OTHERS: readonly (QuantityKey | ChoiceKey)[] = [
  "goalie.depth",
  "goalie.depth_level",
  "goal.frame",
  "goal.mouth_width",
  "shooter.hand",
  "shooter.reach",
]
/** A survey goes through every cue and mark, and names the home rink itself. */
const NOT_ASKED: readonly string[] = ["reference.cue", "reference.mark", "reference.home"]

/** Settings that a rink file may hold. */
export const SURVEY_SETTINGS: readonly string[] = SETTING_KEYS.filter(
  (key) => (/^(rink|reference)\./.test(key) && !NOT_ASKED.includes(key)) || OTHERS.some((other) => other === key),
)

/** Every key of a rink file. */
export const SURVEY_KEYS: readonly string[] = [
  ...keysOf(SURVEY_FIELDS),
  ...HOME_MEASURES.map(({ key }) => key),
  ...SURVEY_SETTINGS,
]
