import { defineConfig } from "vitest/config"

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    isolate: false,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
})
