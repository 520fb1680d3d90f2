import { defineConfig } from "vitest/config"

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    isolate: false,
    // as many files at once as the two cores of the smallest machine: the default leaves one of them free
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
