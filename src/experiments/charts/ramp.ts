/** Colours of a ramp of evenly spaced stops, mixed in Lab so that equal steps look equal; share outside [0, 1] is cut. */
export function rampOf(ramp: readonly string[]): (share: number) => string {
  const stops = ramp.map(labOf)
  const known = new Map<number, string>()
  return (share) => {
    const colour = known.get(share) ?? mixed(stops, share)
    known.set(share, colour)
    return colour
  }
}

function mixed(stops: readonly (readonly number[])[], share: number): string {
  const place = Math.min(1, Math.max(0, share)) * (stops.length - 1)
  const at = Math.min(stops.length - 2, Math.floor(place))
  const [from, to] = [stops[at]!, stops[at + 1]!]
  return hexOf(from.map((value, channel) => value + (place - at) * (to[channel]! - value)))
}

/** Lightness 0 to 100 of a colour, to choose the ink that reads on it. */
export function lightness(colour: string): number {
  return labOf(colour)[0]!
}

// CIE 1976 L*a*b* by way of linear sRGB and XYZ with white D65 [IEC 61966-2-1, CIE 15]
const WHITE = [0.95047, 1, 1.08883] as const

function labOf(hex: string): number[] {
  const [red, green, blue] = [1, 3, 5].map((at) => linear(Number.parseInt(hex.slice(at, at + 2), 16) / 255)) as [
    number,
    number,
    number,
  ]
  const xyz = [
    0.4124564 * red + 0.3575761 * green + 0.1804375 * blue,
    0.2126729 * red + 0.7151522 * green + 0.072175 * blue,
    0.0193339 * red + 0.119192 * green + 0.9503041 * blue,
  ]
  const [x, y, z] = xyz.map((value, at) => bend(value / WHITE[at]!)) as [number, number, number]
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)]
}

function hexOf(lab: readonly number[]): string {
  const y = (lab[0]! + 16) / 116
  const [x, level, z] = [y + lab[1]! / 500, y, y - lab[2]! / 200].map((value, at) => unbend(value) * WHITE[at]!) as [
    number,
    number,
    number,
  ]
  const channels = [
    3.2404542 * x - 1.5371385 * level - 0.4985314 * z,
    -0.969266 * x + 1.8760108 * level + 0.041556 * z,
    0.0556434 * x - 0.2040259 * level + 1.0572252 * z,
  ]
  return `#${channels.map((value) => byte(value)).join("")}`
}

function byte(value: number): string {
  const shown = value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055
  const whole = Math.round(255 * Math.min(1, Math.max(0, shown)))
  return whole.toString(16).padStart(2, "0")
}

function linear(shown: number): number {
  return shown <= 0.04045 ? shown / 12.92 : ((shown + 0.055) / 1.055) ** 2.4
}

function bend(value: number): number {
  return value > 216 / 24389 ? Math.cbrt(value) : (24389 / 27) * (value / 116) + 16 / 116
}

function unbend(value: number): number {
  return value ** 3 > 216 / 24389 ? value ** 3 : (27 / 24389) * (116 * value - 16)
}
