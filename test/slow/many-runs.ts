import { appendFileSync } from "node:fs";
import type { Parameters } from "fast-check";
import { vi } from "vitest";

const { FUZZ_TIMES = "1", FUZZ_COUNTS = "" } = process.env;
/** What fast-check does where nobody says how often. */
const USUAL = 100;

/** As many more cases as asked for, told to the command that adds them up. */
const more = <T>(given?: Parameters<T>): Parameters<T> => {
  const numRuns = (given?.numRuns ?? USUAL) * Number(FUZZ_TIMES);
  appendFileSync(FUZZ_COUNTS, `${numRuns}\n`);
  return { ...given, numRuns };
};

// What is mocked comes before what this file imports.
vi.mock("fast-check", async (original) => {
  const { withCases } = await import("./cases");
  return withCases(await original(), (given) => more(given));
});
