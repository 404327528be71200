import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { planSearch, type SearchLink } from "../../../src/core/inputs/chain-search";

/**
 * The least expected cost, worked out another way: by sets of links that can still be the broken one, as any test of
 * any hypothesis, without knowing that the links lie in a row. A set that no test divides is done.
 */
const bySets = (links: readonly SearchLink[]): number => {
  const tests = links.flatMap(({ lookCost }, k) =>
    lookCost === null ? [] : [{ cost: lookCost, here: 2 ** (k + 1) - 1 }],
  );
  const weightOf = (set: number) => links.reduce((sum, { weight }, i) => sum + ((set >> i) & 1) * weight, 0);
  const least: number[] = [0];
  const costOf = (set: number): number => {
    const known = least[set];
    if (known !== undefined) return known;
    const costs = tests
      .filter(({ here }) => (set & here) !== 0 && (set & ~here) !== 0)
      .map(({ cost, here }) => cost * weightOf(set) + costOf(set & here) + costOf(set & ~here));
    least[set] = costs.length === 0 ? 0 : Math.min(...costs);
    return least[set] as number;
  };
  const all = 2 ** links.length - 1;
  return costOf(all) / weightOf(all);
};

/** Expected cost when the plan is followed look by look for each broken link in turn. */
const followed = (links: readonly SearchLink[]): number => {
  const weight = links.reduce((sum, l) => sum + l.weight, 0);
  const costOf = (broken: number): number => {
    let [from, to, cost] = [0, links.length - 1, 0];
    for (;;) {
      const { look } = planSearch(links, from, to);
      if (look === null) return cost;
      cost += links[look]?.lookCost ?? Number.NaN;
      if (broken <= look) to = look;
      else from = look + 1;
    }
  };
  return links.reduce((sum, l, at) => sum + (l.weight / weight) * costOf(at), 0);
};

const A_CHAIN = fc.array(
  fc.record({
    weight: fc.double({ min: 0.01, max: 20, noNaN: true }),
    lookCost: fc.option(fc.double({ min: 0, max: 10, noNaN: true }), { nil: null, freq: 6 }),
  }),
  { minLength: 1, maxLength: 10 },
);

const near = (a: number, b: number): void => {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, b));
};

describe("the looks with the least expected cost", () => {
  it("cost what an independent program over sets of links finds", () => {
    fc.assert(
      fc.property(A_CHAIN, (links) => near(planSearch(links).cost, bySets(links))),
      { numRuns: 300 },
    );
  });

  it("cost that when they are followed to the end", () => {
    fc.assert(
      fc.property(A_CHAIN, (links) => near(followed(links), planSearch(links).cost)),
      { numRuns: 100 },
    );
  });

  it("halve a chain of equal links and costs", () => {
    const even = Array.from({ length: 8 }, () => ({ weight: 1, lookCost: 1 }));
    expect(planSearch(even)).toEqual({ look: 3, cost: 3 });
  });

  it("go where the weight is, unless the look is dear", () => {
    const links = [
      { weight: 1, lookCost: 1 },
      { weight: 1, lookCost: 1 },
      { weight: 8, lookCost: 1 },
    ];
    expect(planSearch(links).look).toBe(1);
    expect(planSearch(links.map((l, at) => (at === 1 ? { ...l, lookCost: 50 } : l))).look).toBe(0);
  });

  it("are none for one link, and where nobody can look", () => {
    expect(planSearch([{ weight: 3, lookCost: 1 }])).toEqual({ look: null, cost: 0 });
    expect(planSearch([1, 2].map((weight) => ({ weight, lookCost: null })))).toEqual({ look: null, cost: 0 });
  });
});
