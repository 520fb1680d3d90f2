import type initJolt from "jolt-physics"

type Jolt = Awaited<ReturnType<typeof initJolt>>

const { openJolt } = (await import(new URL("../../benchmarks/contact/jolt.mjs", import.meta.url).href)) as {
  openJolt(): Promise<Jolt>
}

/** A path of the mover's middle, p + t w with |w| = 1, and the box it may hit: axes as a quaternion, core, rounding. */
export interface Cast {
  readonly place: readonly number[]
  readonly way: readonly number[]
  readonly longest: number
  readonly turn: readonly number[]
  readonly half: readonly number[]
  readonly rounding: number
}

/** Casts of a rigid-body library, in single precision: how far the mover flies until it touches, or null. */
export interface Casts {
  ball(cast: Cast, radius: number): number | null
  /** A level disc, its axis along z. */
  disc(cast: Cast, radius: number, halfThickness: number): number | null
}

/**
 * The casts of Jolt Physics. A rounded box is a sharp one and a mover that is larger by the rounding: a larger ball, or the
 * disc within the library's own margin about a shape. `tolerance`, m, is its collision tolerance.
 */
export async function joltCasts(tolerance: number): Promise<Casts> {
  const jolt = await openJolt()
  const settings = new jolt.ShapeCastSettings()
  settings.mCollisionTolerance = tolerance
  const [one, origin] = [new jolt.Vec3(1, 1, 1), new jolt.RVec3(0, 0, 0)]
  const filter = new jolt.ShapeFilter()
  const target = new jolt.TransformedShape()

  function cast(mover: InstanceType<typeof jolt.ConvexShape>, { place, way, longest, turn, half }: Cast, tilt: number) {
    const box = new jolt.BoxShape(new jolt.Vec3(half[0]!, half[1]!, half[2]!), 0)
    box.AddRef()
    mover.AddRef()
    target.mShape = box
    target.SetWorldTransform(origin, new jolt.Quat(turn[0]!, turn[1]!, turn[2]!, turn[3]!), one)
    const start = new jolt.RMat44().sRotationTranslation(
      new jolt.Quat(Math.sin(tilt / 2), 0, 0, Math.cos(tilt / 2)),
      new jolt.RVec3(place[0]!, place[1]!, place[2]!),
    )
    const shape = new jolt.RShapeCast(
      mover,
      one,
      start,
      new jolt.Vec3(longest * way[0]!, longest * way[1]!, longest * way[2]!),
    )
    const hits = new jolt.CastShapeClosestHitCollisionCollector()
    target.CastShape(shape, settings, origin, hits, filter)
    const found = hits.HadHit() ? longest * hits.mHit.mFraction : null
    jolt.destroy(hits)
    jolt.destroy(shape)
    mover.Release()
    box.Release()
    return found
  }

  return {
    ball: (given, radius) => {
      settings.mExtraConvexRadius = 0
      return cast(new jolt.SphereShape(radius + given.rounding), given, 0)
    },
    disc: (given, radius, halfThickness) => {
      settings.mExtraConvexRadius = given.rounding
      // its cylinders stand along y
      return cast(new jolt.CylinderShape(halfThickness, radius, 0), given, Math.PI / 2)
    },
  }
}
