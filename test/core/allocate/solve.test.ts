import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LossCode, WORST_FIRST } from "../../../src/core/allocate/losses";
import type { AllocationProblem } from "../../../src/core/allocate/model";
import { solve } from "../../../src/core/allocate/solve";
import { BRUTE_CODES, leastLost } from "./brute";
import { smallProblem } from "./problems";

const found = (problem: AllocationProblem): number[] | null => {
  const grouping = solve(problem);
  return grouping && BRUTE_CODES.map((code) => grouping.charges[code as LossCode] ?? 0);
};

describe("solve", () => {
  it("orders its losses as the brute force does", () => {
    expect(WORST_FIRST).toEqual(BRUTE_CODES);
  });

  it.each([
    [2, 800],
    [3, 1300],
    [4, 300],
    [5, 30],
  ])("loses no more than the best of everything there is: up to %i channels", (most, numRuns) => {
    let possible = 0;
    let runs = 0;
    fc.assert(
      fc.property(smallProblem(most), (problem) => {
        runs += 1;
        const least = leastLost(problem);
        if (least) possible += 1;
        expect(found(problem)).toEqual(least);
      }),
      { numRuns },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(possible).toBeGreaterThan(runs / 2);
  });
});
