/** Functions whose last bits differ between engines: the host's own, so that both kernels use the same. */
// @ts-ignore: decorator
@external("host", "sin")
export declare function sin(x: f64): f64
// @ts-ignore: decorator
@external("host", "cos")
export declare function cos(x: f64): f64
// @ts-ignore: decorator
@external("host", "log")
export declare function log(x: f64): f64
/** Of which only little is asked: where the path ends before it is closest, see sim/swept-disc.ts. */
// @ts-ignore: decorator
@external("host", "distanceInSpace")
export declare function distanceInSpace(
  q0: f64, q1: f64, q2: f64, w0: f64, w1: f64, w2: f64, u0: f64, u1: f64, u2: f64, h0: f64, h1: f64, h2: f64,
  least: f64, most: f64, radius: f64, half: f64, c: f64, s: f64, nearest: f64,
): f64
