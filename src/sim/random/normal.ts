import type { Probability } from "../units.ts"

/**
 * The standard normal distribution.
 *
 * Cumulative: rational Chebyshev approximations of W. J. Cody, "Rational Chebyshev approximations for the error
 * function", Math. Comp. 23 (1969), 631-637, in the form of his ANORM (ACM TOMS 715, 1993). Greatest relative error
 * found against 40-digit arithmetic: 7e-16, from 0.5 down to 1e-300.
 * Inverse: M. J. Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988), 477-484. Greatest relative error
 * found in the same way: 6e-16.
 */

/** Beyond this the lower tail is 0 in doubles. */
const FURTHEST = 39
const ONE_OVER_ROOT_TWO_PI = 0.3989422804014327

/** Density of the standard normal at x. */
export function densityNormal(x: number): number {
  return ONE_OVER_ROOT_TWO_PI * Math.exp(-0.5 * x * x)
}

/** Probability of a value below x, for any x; keeps its relative accuracy in the lower tail. */
export function cumulativeNormal(x: number): Probability {
  const y = Math.abs(x)
  // body: odd rational function about one half
  if (y <= 0.67448975) return 0.5 + bodyOfCumulative(x)
  if (y > FURTHEST) return x > 0 ? 1 : 0
  // shoulder and tail: rational function times the density
  const upper = tailExponential(y) * (y <= 5.656854249492381 ? shoulderFactor(y) : farTailFactor(y))
  return x > 0 ? 1 - upper : upper
}

function bodyOfCumulative(x: number): number {
  const s = x * x
  const numerator =
    (((0.06568233791820745 * s + 2.2352520354606837) * s + 161.02823106855587) * s + 1067.6894854603709) * s +
    18154.98125334356
  const denominator =
    (((s + 47.202581904688245) * s + 976.0985517377767) * s + 10260.932208618979) * s + 45507.78933502673
  return (x * numerator) / denominator
}

/** exp(-y²/2) with y split at sixteenths, so that the square loses no digits. */
function tailExponential(y: number): number {
  const coarse = Math.trunc(y * 16) / 16
  return Math.exp(-0.5 * coarse * coarse) * Math.exp(-0.5 * (y - coarse) * (y + coarse))
}

function shoulderFactor(y: number): number {
  let numerator = 1.0765576773720192e-8 * y + 0.39894151208813466
  numerator = (numerator * y + 8.883149794388377) * y + 93.50665613217785
  numerator = (numerator * y + 597.2702763948002) * y + 2494.5375852903726
  numerator = (numerator * y + 6848.190450536283) * y + 11602.65143764735
  numerator = numerator * y + 9842.714838383978
  let denominator = y + 22.266688044328117
  denominator = (denominator * y + 235.387901782625) * y + 1519.3775994075547
  denominator = (denominator * y + 6485.558298266761) * y + 18615.571640885097
  denominator = (denominator * y + 34900.95272114598) * y + 38912.00328609327
  denominator = denominator * y + 19685.429676859992
  return numerator / denominator
}

function farTailFactor(y: number): number {
  const s = 1 / (y * y)
  const numerator =
    ((((0.023073441764940174 * s + 0.215898534057957) * s + 0.12740116116024736) * s + 0.022235277870649807) * s +
      0.0014216191932278934) *
      s +
    2.9112874951168793e-5
  const denominator =
    ((((s + 1.284260096144911) * s + 0.4682382124808651) * s + 0.06598813786892856) * s + 0.0037823963320275824) * s +
    7.297515550839662e-5
  return (ONE_OVER_ROOT_TWO_PI - (s * numerator) / denominator) / y
}

/**
 * The x below which a share `p` of a standard normal lies: the inverse of {@link cumulativeNormal}. One uniform draw in
 * (0, 1) becomes one normal draw, monotone. 0 gives -Infinity, 1 gives Infinity, outside [0, 1] NaN.
 */
export function invertNormal(p: Probability): number {
  const q = p - 0.5
  // middle 85 %
  if (q >= -0.425 && q <= 0.425) return q * middleFactor(0.180625 - q * q)
  // tails, in the square root of minus the logarithm of the tail's probability
  const tail = q < 0 ? p : 1 - p
  if (!(tail > 0)) return tail === 0 ? (q < 0 ? -Infinity : Infinity) : Number.NaN
  const r = Math.sqrt(-Math.log(tail))
  const x = r <= 5 ? nearTail(r - 1.6) : farTail(r - 5)
  return q < 0 ? -x : x
}

function middleFactor(r: number): number {
  let numerator = 2509.0809287301227 * r + 33430.57558358813
  numerator = (numerator * r + 67265.7709270087) * r + 45921.95393154987
  numerator = (numerator * r + 13731.69376550946) * r + 1971.5909503065513
  numerator = (numerator * r + 133.14166789178438) * r + 3.3871328727963665
  let denominator = 5226.495278852854 * r + 28729.085735721943
  denominator = (denominator * r + 39307.89580009271) * r + 21213.794301586597
  denominator = (denominator * r + 5394.196021424751) * r + 687.1870074920579
  denominator = (denominator * r + 42.31333070160091) * r + 1
  return numerator / denominator
}

function nearTail(r: number): number {
  let numerator = 0.0007745450142783414 * r + 0.022723844989269184
  numerator = (numerator * r + 0.2417807251774506) * r + 1.2704582524523684
  numerator = (numerator * r + 3.6478483247632045) * r + 5.769497221460691
  numerator = (numerator * r + 4.630337846156546) * r + 1.4234371107496835
  let denominator = 1.0507500716444169e-9 * r + 0.0005475938084995345
  denominator = (denominator * r + 0.015198666563616457) * r + 0.14810397642748008
  denominator = (denominator * r + 0.6897673349851) * r + 1.6763848301838038
  denominator = (denominator * r + 2.053191626637759) * r + 1
  return numerator / denominator
}

function farTail(r: number): number {
  let numerator = 2.0103343992922881e-7 * r + 2.7115555687434876e-5
  numerator = (numerator * r + 0.0012426609473880784) * r + 0.026532189526576124
  numerator = (numerator * r + 0.29656057182850487) * r + 1.7848265399172913
  numerator = (numerator * r + 5.463784911164114) * r + 6.657904643501103
  let denominator = 2.0442631033899397e-15 * r + 1.421511758316446e-7
  denominator = (denominator * r + 1.8463183175100548e-5) * r + 0.0007868691311456133
  denominator = (denominator * r + 0.014875361290850615) * r + 0.1369298809227358
  denominator = (denominator * r + 0.599832206555888) * r + 1
  return numerator / denominator
}
