import fc, { type Parameters } from "fast-check";
import { vi } from "vitest";

// Each of thousands of mutants runs the properties again: fewer cases each are enough to kill one,
// the same each time, or what lives would be another list each time.
fc.configureGlobal({ numRuns: 25, seed: 1 });

/** Some tests count what came up, so half of what they ask for is as far as it goes. */
const fewer = <T>(given?: Parameters<T>): Parameters<T> | undefined =>
  given?.numRuns ? { ...given, numRuns: Math.ceil(given.numRuns / 2) } : given;

// What is mocked comes before what this file imports.
vi.mock("fast-check", async (original) => {
  const { withCases } = await import("./cases");
  return withCases(await original(), (given) => fewer(given));
});
