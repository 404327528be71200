import { defineConfig } from "vitest/config";

/** Only what judges the mutated rooms: the arithmetic and the document. */
export default defineConfig({
  test: {
    include: ["test/core/**/*.test.ts", "test/document/**/*.test.ts"],
    setupFiles: ["test/slow/few-runs.ts"],
    testTimeout: 60_000,
  },
});
