import { defineConfig } from "vitest/config";
import { withAssembly } from "../../src/measure/simd/compile.mjs";

const list = (of: string | undefined): string[] => (of ? of.split(",") : []);

/** Only what judges the mutated part, as `mutate.mjs` names it. */
export default defineConfig({
  ...withAssembly(),
  test: {
    include: list(process.env.MUTATE_TESTS),
    exclude: list(process.env.MUTATE_WITHOUT),
    setupFiles: ["test/slow/few-runs.ts"],
    testTimeout: 60_000,
    isolate: false,
  },
});
