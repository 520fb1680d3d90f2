import fc from "fast-check"
import { describe, expect, test } from "vitest"
import {
  formatQuantity,
  fromSi,
  isMeasured,
  parseQuantity,
  quantityPattern,
  toSi,
} from "../../src/experiments/quantity.ts"
import { FORMS, findUnit, UNITS } from "../../src/experiments/quantity-units.ts"
import type { Dimension, Quantity } from "../../src/models/parameter.ts"
import { QUANTITIES } from "../../src/models/settings.ts"

const DIMENSIONS = Object.keys(UNITS) as Dimension[]

function si(text: string, dimension: Dimension): number {
  const read = parseQuantity(text, dimension)
  return isMeasured(read) ? read.value : Number.NaN
}

describe("parseQuantity()", () => {
  // mutation seen red: a foot of 0.3 m
  test.each<[string, Dimension, number]>([
    ["1.2 m", "length", 1.2],
    ["120cm", "length", 1.2],
    ["4 ft", "length", 1.2192],
    ["1 in", "length", 0.0254],
    ["6 ft 2 in", "length", 1.8796],
    [`6'2"`, "length", 1.8796],
    ["-6 ft 6 in", "length", -1.9812],
    ["185 ms", "time", 0.185],
    ["0.3 s", "time", 0.3],
    ["36 km/h", "speed", 10],
    ["60 mph", "speed", 26.8224],
    ["30 m/s", "speed", 30],
    ["7 m/s²", "acceleration", 7],
    ["180 deg", "angle", Math.PI],
    ["−90°", "angle", -Math.PI / 2],
    ["0.5 rad", "angle", 0.5],
    ["100 lb", "mass", 45.359237],
    ["6 oz", "mass", 0.17009713875],
    ["25 %", "share", 0.25],
    ["0.25", "share", 0.25],
    ["1e3", "number", 1000],
    ["-5 °C", "temperature", 268.15],
    ["32 °F", "temperature", 273.15],
    ["268 K", "temperature", 268],
    ["0.006 /m", "perMetre", 0.006],
  ])("reads %s as a %s", (text, dimension, value) => {
    expect(si(text, dimension)).toBeCloseTo(value, 12)
  })

  test("refuses a bare number where a unit is needed, also a bare zero", () => {
    for (const dimension of DIMENSIONS.filter((name) => name !== "share" && name !== "number")) {
      expect(parseQuantity("0", dimension)).toEqual({ kind: "missing unit" })
    }
  })

  test("tells a unit of another dimension from a unit nobody knows", () => {
    expect(parseQuantity("2 s", "length")).toEqual({ kind: "wrong unit", unit: "s", measures: ["time"] })
    expect(parseQuantity("2 furlongs", "length")).toEqual({ kind: "wrong unit", unit: "furlongs", measures: [] })
    expect(parseQuantity("2 m", "number")).toEqual({ kind: "wrong unit", unit: "m", measures: ["length"] })
  })

  test("refuses a decimal comma and says how to write it", () => {
    expect(parseQuantity("1,2 m", "length")).toEqual({ kind: "not a number", remedy: "write a decimal point: 1.2 m" })
  })

  test("reads every form that its own messages show", () => {
    for (const dimension of DIMENSIONS) {
      for (const form of FORMS[dimension]) expect(si(form, dimension), form).not.toBeNaN()
    }
  })

  // mutation seen red: "number" matched anywhere in the text instead of at its start
  test("never reads a text that the editors' pattern refuses, nor the other way round", () => {
    const word = fc.constantFrom(
      "m",
      "ft",
      " in",
      "%",
      " km/h",
      "ms",
      " deg",
      "kg",
      "°C",
      " /m",
      "",
      " x",
      "'",
      '2"',
      " 3",
    )
    const number = fc.constantFrom("1", "-2.5", ".5", "1e3", "4.", "+3", "1,2", "e3", "--1", "")
    fc.assert(
      fc.property(number, word, word, fc.constantFrom(...DIMENSIONS), (digits, first, second, dimension) => {
        const text = `${digits}${first}${second}`
        const byPattern = new RegExp(quantityPattern(dimension), "u").test(text)
        return byPattern === isMeasured(parseQuantity(text, dimension))
      }),
      { seed: 20, numRuns: 3000 },
    )
  })
})

describe("units", () => {
  test("of every dimension go to SI and back", () => {
    const units = DIMENSIONS.flatMap((dimension) => UNITS[dimension])
    fc.assert(
      fc.property(fc.constantFrom(...units), fc.double({ min: -1e3, max: 1e3, noNaN: true }), (unit, written) => {
        return Math.abs(fromSi(toSi(written, unit), unit) - written) < 1e-9
      }),
      { seed: 21 },
    )
  })

  test("of every parameter are known for its dimension, so that each can be printed", () => {
    for (const [key, quantity] of Object.entries<Quantity>(QUANTITIES)) {
      expect(findUnit(quantity.dimension, quantity.unit), `${key} in ${quantity.unit}`).not.toBeNull()
    }
  })

  test("print what a person would write", () => {
    expect(formatQuantity(1.2, "length", "m")).toBe("1.2 m")
    expect(formatQuantity(0.3048 * 4, "length", "ft")).toBe("4 ft")
    expect(formatQuantity(0.25, "share", "%")).toBe("25 %")
    expect(formatQuantity(268.15, "temperature", "°C")).toBe("-5 °C")
    expect(formatQuantity(0.1 + 0.2, "number", "")).toBe("0.3")
    expect(formatQuantity(Number.NaN, "length", "m")).toBe("follows from other settings")
  })
})
