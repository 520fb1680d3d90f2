import { z } from "zod"
import type { Quantity } from "../models/parameter.ts"
import { CHOICES, type ChoiceKey, QUANTITIES, type QuantityKey } from "../models/settings.ts"
import { SHOT_NAMES } from "../models/shooter/shot-types.ts"
import { SAMPLERS } from "../sim/sampler.ts"
import { CHART_KINDS, DESIGN_KINDS, JUDGED } from "./experiment.ts"
import {
  BASELINE_FIELDS,
  CASE_FIELDS,
  DESIGN_FIELDS,
  EVENT_FIELDS,
  FILE_FIELDS,
  type Field,
  groupsOf,
  INTERACTION_FIELDS,
  keysOf,
  PLACE_FIELDS,
  RANGE_FIELDS,
  SENSITIVITY_FIELDS,
  SETTING_FIELDS,
  SETTING_KEYS,
  SPAN_FIELDS,
  SPOT_FIELDS,
  UNTIL_FIELDS,
} from "./grammar.ts"
import { formatLimits, formatQuantity, quantityPattern } from "./quantity.ts"

/** What editors show beside a key. */
interface Remark {
  readonly id?: string
  readonly description?: string
}
const LAYER_KEYS = [...SETTING_KEYS, ...keysOf(SETTING_FIELDS)]

/**
 * The form of an experiment file for editors, made from the table of keys and the models' parameters that the reader
 * walks. It knows keys, names and the shape of a quantity; limits and everything that needs two keys are the reader's.
 */
export function experimentSchema(remarks: z.core.$ZodRegistry<Remark> = z.registry<Remark>()): z.ZodType {
  return fileForm({ remarks, made: new Map() })
}

/** The same as JSON Schema, ready to be written to a file. */
export function experimentJsonSchema(): string {
  const remarks = z.registry<Remark>()
  const schema = z.toJSONSchema(experimentSchema(remarks), { io: "input", metadata: remarks, reused: "ref" })
  return `${JSON.stringify({ title: "goalmouth experiment", ...schema }, null, 1)}\n`
}

/** The remarks of one schema and the forms it has made, so that each parameter is written down once. */
interface Forms {
  readonly remarks: z.core.$ZodRegistry<Remark>
  readonly made: Map<string, z.ZodType>
}

function fileForm(forms: Forms): z.ZodType {
  const layer = (key: string): z.ZodType => layerForm(forms, key)
  const sweep = mapping(SETTING_KEYS, (key) => sweptForm(forms, key))
  const baselineKeys = [...keysOf(BASELINE_FIELDS), ...SETTING_KEYS]
  const interaction = interactionForm(forms)
  const leaves: Readonly<Record<(typeof FILE_FIELDS)[number]["key"], z.ZodType>> = {
    question: z.string().min(1),
    why: z.string(),
    sweep,
    together: z.union([sweep, z.array(sweep)]),
    design: fields(forms, DESIGN_FIELDS, {
      kind: z.enum(DESIGN_KINDS),
      over: overForm(forms),
      points: z.number().int(),
    }),
    sensitivity: fields(forms, SENSITIVITY_FIELDS, {
      of: z.string(),
      over: z.union([z.enum(["training", "assumptions"]), overForm(forms)]),
      sets: z.number().int(),
      shots: z.number().int(),
    }),
    compare: z.array(mapping([...keysOf(CASE_FIELDS), ...LAYER_KEYS], layer, keysOf(CASE_FIELDS))),
    interaction: z.union([interaction, z.array(interaction)]),
    "worst-of": z.array(z.string()).min(2),
    baseline: mapping(baselineKeys, (key) => (key === "case" ? z.string() : valueForm(forms, key))),
    measures: z.union([z.string(), z.array(z.string())]),
    shots: z.number().int(),
    until: fields(forms, UNTIL_FIELDS, {
      "half-width": z.union([z.number(), z.string()]),
      of: z.enum(JUDGED),
      most: z.number().int(),
    }),
    sampling: z.enum(SAMPLERS),
    seed: z.union([z.string(), z.number()]),
    charts: z.array(z.enum(CHART_KINDS)),
  }
  const top = (key: string): z.ZodType => {
    const field = FILE_FIELDS.find((item) => item.key === key)
    return field === undefined ? layer(key) : remark(forms, leaves[field.key], { description: field.why })
  }
  return mapping([...keysOf(FILE_FIELDS), ...LAYER_KEYS], top, ["question"])
}

function remark<Form extends z.ZodType>(forms: Forms, form: Form, what: Remark): Form {
  forms.remarks.add(form, what)
  return form
}

/** The form made before under this name, or a new one that is kept. */
function once(forms: Forms, name: string, make: () => z.ZodType): z.ZodType {
  const known = forms.made.get(name)
  if (known !== undefined) return known
  const form = make()
  forms.made.set(name, form)
  return form
}

/** A strict mapping of fields, all optional. */
function fields(forms: Forms, table: readonly Field[], types: Readonly<Record<string, z.ZodType>>): z.ZodType {
  const shape = table.map(({ key, why }) => [key, remark(forms, types[key]!, { description: why }).optional()] as const)
  return z.strictObject(Object.fromEntries(shape))
}

function layerForm(forms: Forms, key: string): z.ZodType {
  const field = SETTING_FIELDS.find((item) => item.key === key)
  if (key === "name") return z.string()
  if (field === undefined) return valueForm(forms, key)
  return once(forms, key, () => remark(forms, settingForm(forms, key), { description: field.why }))
}

function settingForm(forms: Forms, key: string): z.ZodType {
  if (key === "play.from") return placesForm(forms)
  if (key === "play.players") return z.record(z.string(), spotForm(forms))
  return key === "play.events" ? z.array(eventForm(forms)) : z.string()
}

function spotForm(forms: Forms): z.ZodType {
  const types = Object.fromEntries(SPOT_FIELDS.map(({ key }) => [key, z.string() as z.ZodType]))
  return once(forms, "spot", () => remark(forms, fields(forms, SPOT_FIELDS, types), { id: "spot" }))
}

function eventForm(forms: Forms): z.ZodType {
  const types = Object.fromEntries(EVENT_FIELDS.map(({ key }) => [key, z.string() as z.ZodType]))
  types.carry = spotForm(forms)
  types.cut = spotForm(forms)
  types.shot = z.enum(SHOT_NAMES)
  return remark(forms, fields(forms, EVENT_FIELDS, types), { id: "event" })
}

function placesForm(forms: Forms): z.ZodType {
  const types = Object.fromEntries(PLACE_FIELDS.map(({ key }) => [key, z.string() as z.ZodType]))
  types.corners = z.array(z.tuple([z.string(), z.string()])).min(3)
  types.weight = z.union([z.number(), z.string()])
  const place = remark(forms, fields(forms, PLACE_FIELDS, types), { id: "place" })
  return z.union([z.string(), place, z.array(place)])
}

function valueForm(forms: Forms, key: string): z.ZodType {
  return once(forms, key, () => {
    const form =
      key in QUANTITIES ? quantityForm(QUANTITIES[key as QuantityKey]) : z.enum(CHOICES[key as ChoiceKey].names)
    return remark(forms, form, { id: key, description: describe(key) })
  })
}

function sweptForm(forms: Forms, key: string): z.ZodType {
  return once(forms, `swept ${key}`, () => listOrRange(forms, key))
}

function listOrRange(forms: Forms, key: string): z.ZodType {
  const value = valueForm(forms, key)
  const list = z.array(value).min(1)
  if (!(key in QUANTITIES)) return list
  const step = z.union([z.number(), z.string()])
  const types = { from: value, to: value, step: step.optional(), steps: z.number().int().min(2).optional() }
  const range = RANGE_FIELDS.map((field) => [field.key, types[field.key]] as const)
  return z.union([list, z.strictObject(Object.fromEntries(range))])
}

function interactionForm(forms: Forms): z.ZodType {
  const value = z.union([z.number(), z.string()])
  const types = {
    name: z.string(),
    change: z.enum(SETTING_KEYS as [string, ...string[]]),
    from: value,
    to: value,
    between: z.union([z.string(), z.tuple([z.string(), z.string()])]),
  }
  return remark(forms, fields(forms, INTERACTION_FIELDS, types), { id: "interaction" })
}

/** Quantities with their ranges: a list of keys, a mapping of keys to ranges, or a list of both. */
function overForm(forms: Forms): z.ZodType {
  return once(forms, "over", () => {
    const keys = Object.keys(QUANTITIES)
    const ranges = mapping(keys, (key) => once(forms, `range ${key}`, () => spanForm(forms, key)))
    return remark(forms, z.union([ranges, z.array(z.union([z.enum(keys), ranges]))]), { id: "over" })
  })
}

function spanForm(forms: Forms, key: string): z.ZodType {
  const value = valueForm(forms, key)
  return z.strictObject(Object.fromEntries(SPAN_FIELDS.map((field) => [field.key, value]))).nullable()
}

function quantityForm(quantity: Quantity): z.ZodType {
  const text = z.string().regex(new RegExp(quantityPattern(quantity.dimension)))
  return quantity.dimension === "share" || quantity.dimension === "number" ? z.union([z.number(), text]) : text
}

/** One line of help: what it is, its default and its limits. */
function describe(key: string): string {
  if (!(key in QUANTITIES)) {
    const choice = CHOICES[key as ChoiceKey]
    return `${choice.why}. Default ${choice.value}.`
  }
  const quantity: Quantity = QUANTITIES[key as QuantityKey]
  const { dimension, unit, value } = quantity
  const standard = formatQuantity(value, dimension, unit)
  return `${quantity.why.replace(/\.$/, "")}. Default ${standard}; ${formatLimits(quantity, unit)}.`
}

/** A strict mapping whose keys may be nested or dotted; `leaf` gives the form of each known key's value. */
function mapping(
  known: readonly string[],
  leaf: (key: string) => z.ZodType,
  required: readonly string[] = [],
): z.ZodType {
  const groups = groupsOf(known)
  const sections = new Map<string, z.ZodType>()
  const section = (prefix: string): z.ZodType => {
    const made = sections.get(prefix)
    if (made !== undefined) return made
    const below = (key: string): boolean => key.startsWith(prefix === "" ? "" : `${prefix}.`)
    const shape: Record<string, z.ZodType> = {}
    for (const key of new Set([...known, ...groups])) {
      if (!below(key) || key === prefix) continue
      const form = formOf(key)
      shape[prefix === "" ? key : key.slice(prefix.length + 1)] = required.includes(key) ? form : form.optional()
    }
    const object = z.strictObject(shape)
    sections.set(prefix, object)
    return object
  }
  const formOf = (key: string): z.ZodType => {
    if (!groups.has(key)) return leaf(key)
    return known.includes(key) ? z.union([leaf(key), section(key).nullable()]) : section(key).nullable()
  }
  return section("")
}
