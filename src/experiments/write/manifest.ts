import { samplingOf } from "../experiment.ts"
import type { RunResults } from "../results.ts"

/** Facts about how a run went that only its caller knows; nothing else written may hold them. */
export interface RunFacts {
  /** SHA-256 of the experiment file as read, hexadecimal. */
  readonly fileHash: string
  readonly durationSeconds: number
  readonly hardware: string
  readonly workers: number
  /** What ended the run: "shots", "half-width", "ceiling", "interrupted" … */
  readonly stoppedBy: string
}

/** manifest.json: version, seed, file hash, parameters, and how the run went. */
export function manifestOf(results: RunResults, facts: RunFacts, files: readonly string[]): string {
  const { experiment } = results
  const document = {
    format: "goalmouth manifest",
    formatVersion: 1,
    version: results.version,
    name: experiment.name,
    question: experiment.question,
    seed: experiment.seed,
    sampling: samplingOf(experiment),
    ...(results.spread === undefined
      ? {}
      : { pointDimensions: results.spread.dimensions, independentDrawsBeyond: results.spread.beyond }),
    fileHash: facts.fileHash,
    shots: results.shots,
    shotsAreFor: results.points.every(({ shots }) => shots === results.shots)
      ? "each design point"
      : "each design point at most",
    replicates: results.replicates,
    designPoints: experiment.points.length,
    parameters: { ...experiment.shared.quantities, ...experiment.shared.choices },
    setByFile: experiment.setByFile,
    stoppedBy: facts.stoppedBy,
    durationSeconds: facts.durationSeconds,
    hardware: facts.hardware,
    workers: facts.workers,
    files: [...files].sort(),
  }
  return `${JSON.stringify(document, null, 1)}\n`
}

/** Files that a manifest of an earlier run in the same folder lists; none when it is no such manifest. */
export function filesOfManifest(text: string): string[] {
  try {
    const document: unknown = JSON.parse(text)
    const files = (document as { readonly files?: unknown } | null)?.files
    return Array.isArray(files) ? files.filter((file): file is string => typeof file === "string") : []
  } catch {
    return []
  }
}
