import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { withAssembly } from "../../src/measure/simd/compile.mjs";

const ROOMS = ["core", "document", "listen", "measure", "screens", "shelf"].map((room) => `test/${room}`);

/** Every test that states a property, with as many more cases as `fuzz.mjs` says. */
export default defineConfig({
  ...withAssembly(),
  test: {
    include: ROOMS.flatMap((room) =>
      readdirSync(room, { recursive: true, encoding: "utf8" }).map((file) => join(room, file)),
    ).filter((file) => file.endsWith(".test.ts") && readFileSync(file, "utf8").includes("fc.assert")),
    setupFiles: ["test/slow/many-runs.ts"],
    testTimeout: 3_600_000,
  },
});
