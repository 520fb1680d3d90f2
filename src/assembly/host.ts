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
