export function writeCoverage(found) {
  for (const { part, truth, runs } of found) {
    console.log(part.name, runs.reduce((s, r) => s + r.shots, 0) / runs.length)
    for (const [name, [mean, low, high]] of Object.entries(truth)) {
      const held = runs.filter(({ found }) => found[name][1] <= mean && mean <= found[name][2]).length
      const half = runs.reduce((s, { found }) => s + (found[name][2] - found[name][1]) / 2, 0) / runs.length
      console.log(
        `  ${name}: ${held} of ${runs.length}, half ${half.toFixed(4)}, truth ± ${((high - low) / 2).toFixed(5)}, ratio ${((high - low) / 2 / half).toFixed(3)}`,
      )
    }
  }
}
