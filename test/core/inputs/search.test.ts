import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cheapest, type SearchItem } from "../../../src/core/inputs/search";
import { bruteForce } from "./brute";

const aChoice = fc.record({
  frees: fc.integer({ min: 1, max: 3 }),
  cost: fc.integer({ min: 1, max: 9 }),
  move: fc.constant("x"),
});
const items = fc
  .array(
    fc.record({
      choices: fc.array(aChoice, { maxLength: 2 }),
      join: fc.option(
        fc.record({
          family: fc.constantFrom("A", "B"),
          frees: fc.integer({ min: 1, max: 2 }),
          cost: fc.integer({ min: 1, max: 9 }),
        }),
      ),
    }),
    { maxLength: 6 },
  )
  .map((list) => list.sort((a, b) => (a.join?.family ?? "").localeCompare(b.join?.family ?? "")));

describe("cheapest", () => {
  it("costs what trying everything finds", () => {
    fc.assert(
      fc.property(
        items,
        fc.integer({ min: 1, max: 6 }),
        fc.integer({ min: 0, max: 6 }),
        (list, needed, group) => {
          const found = cheapest(list, needed, group, 5);
          expect(found.map((f) => f.cost)).toEqual(bruteForce(list, needed, group, 5));
          for (const f of found) expect(f.frees).toBeGreaterThanOrEqual(needed);
        },
      ),
      { numRuns: 400 },
    );
  });

  it("finds nothing where not enough can be freed, and nothing where nothing is needed", () => {
    const one: SearchItem<string>[] = [{ choices: [{ frees: 1, cost: 1, move: "a" }], join: null }];
    expect(cheapest(one, 2, 4, 5)).toEqual([]);
    expect(cheapest(one, 0, 4, 5)).toEqual([]);
  });

  it("comes to an end with forty things alike", () => {
    const list = Array.from(
      { length: 40 },
      (_, i): SearchItem<string> => ({
        choices: [
          { frees: 1, cost: 10, move: "fold" },
          { frees: 2, cost: 24, move: "into" },
        ],
        join: { family: i < 20 ? "A" : "B", frees: 2, cost: 18 },
      }),
    );
    expect(cheapest(list, 24, 4, 5)).toHaveLength(5);
  });

  it("comes to an end with sixty things and few inputs to free, and where one thing frees as many as all others", () => {
    const many = Array.from(
      { length: 60 },
      (_, i): SearchItem<string> => ({
        choices: [
          { frees: 1, cost: 10, move: "fold" },
          { frees: 2, cost: 24 + (i % 7), move: "into" },
        ],
        join: { family: i < 20 ? "A" : i < 40 ? "B" : "C", frees: 1 + (i % 2), cost: 3 + (i % 5) },
      }),
    );
    expect(cheapest(many, 3, 4, 5)).toHaveLength(5);
    const single = Array.from(
      { length: 30 },
      (): SearchItem<string> => ({ choices: [{ frees: 1, cost: 2, move: "muted" }], join: null }),
    );
    const copies: SearchItem<string> = { choices: [{ frees: 31, cost: 31, move: "copy" }], join: null };
    expect(cheapest([copies, ...single], 31, 4, 5)).toEqual([
      { cost: 31, frees: 31, moves: ["copy"], groups: [] },
    ]);
  });
});
