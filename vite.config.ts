import { defineConfig } from "vitest/config";

export default defineConfig({
  root: "src",
  publicDir: "../public",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "../dist",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: "unit",
          root: ".",
          dir: "test",
          include: ["**/*.test.{ts,tsx}"],
          exclude: ["browser/**"],
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          root: ".",
          dir: "test/browser",
          include: ["**/*.test.ts"],
          fileParallelism: false,
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
