import initJolt from "jolt-physics"

/** Jolt Physics, a general engine for rigid bodies, made ready for casts: it knows no shape before a world exists. */
export async function openJolt() {
  const jolt = await initJolt()
  const pairs = new jolt.ObjectLayerPairFilterTable(1)
  const layers = new jolt.BroadPhaseLayerInterfaceTable(1, 1)
  layers.MapObjectToBroadPhaseLayer(0, new jolt.BroadPhaseLayer(0))
  const world = new jolt.JoltSettings()
  world.mObjectLayerPairFilter = pairs
  world.mBroadPhaseLayerInterface = layers
  world.mObjectVsBroadPhaseLayerFilter = new jolt.ObjectVsBroadPhaseLayerFilterTable(layers, 1, pairs, 1)
  new jolt.JoltInterface(world)
  return jolt
}
