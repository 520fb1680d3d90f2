import { spawnSync } from "node:child_process"
import { fileURLToPath } from "node:url"
import { expect, test } from "vitest"

const SOAK = fileURLToPath(new URL("../../benchmarks/soak.mjs", import.meta.url))

// killed runs, full disks and paths through a file are tests of their own, in tests/experiments and tests/cli
// seen to fail: problems of a file not printed
test("spoilt experiment files are read clean or refused in words, 30 in one process and 3 in their own", () => {
  const counts = ["--kills", "0", "--disks", "0", "--paths", "0", "--files", "30", "--processes", "3"]
  const { status, stdout } = spawnSync(process.execPath, [SOAK, ...counts, "--seed", "suite"], { encoding: "utf8" })
  expect(stdout).toContain("0 faults")
  expect(stdout).toMatch(/30 spoilt files in this process: \d+ read clean all the same, \d+ refused/)
  expect(stdout).toMatch(/3 spoilt files as processes: \d run all the same, \d refused/)
  expect(status).toBe(0)
}, 120_000)
