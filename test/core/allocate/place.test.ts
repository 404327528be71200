import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { couldStay, type GroupedFeed } from "../../../src/core/allocate/feeds";
import { type PlacedFeed, placeFeeds, unusualPairs } from "../../../src/core/allocate/place";
import type { Space } from "../../../src/core/allocate/space";

/** A feed of nothing: only its width and its places matter here. */
const aFeed = (inputs: number): fc.Arbitrary<GroupedFeed> =>
  fc.record({
    bus: fc.constant(null),
    width: fc.constantFrom(1 as const, 1 as const, 2 as const),
    items: fc.constant([]),
    placed: fc.constant(null),
    now: fc.option(fc.integer({ min: 1, max: inputs }), { freq: 3 }),
  });

const spaceOf = (inputs: number, taken: readonly number[]): Space => {
  const free = Array.from({ length: inputs }, (_, i) => i + 1).filter((n) => !taken.includes(n));
  return { free, pairs: free.filter((n) => n % 2 === 1 && free.includes(n + 1)), placed: [] };
};

/** Every way to put the feeds on free inputs. */
const everyWay = (
  feeds: readonly GroupedFeed[],
  free: readonly number[],
  done: readonly PlacedFeed[] = [],
): PlacedFeed[][] => {
  const feed = feeds[done.length];
  if (!feed) return [[...done]];
  return free.flatMap((input) => {
    const wide = feed.width === 2;
    if (wide && (input % 2 === 0 || !free.includes(input + 1))) return [];
    const rest = free.filter((n) => n !== input && !(wide && n === input + 1));
    return everyWay(feeds, rest, [...done, { feed, input }]);
  });
};

const stays = ({ feed, input }: PlacedFeed): boolean => feed.now === input;
const unusual = (feeds: readonly GroupedFeed[], placed: readonly PlacedFeed[]): number => {
  let count = 0;
  for (const a of placed)
    for (const b of placed)
      if (feeds.indexOf(a.feed) < feeds.indexOf(b.feed) && a.input > b.input) count += 1;
  return count;
};
const sum = (placed: readonly PlacedFeed[]): number => placed.reduce((s, p) => s + p.input, 0);

const cases = fc.integer({ min: 1, max: 7 }).chain((inputs) =>
  fc
    .record({
      taken: fc.uniqueArray(fc.integer({ min: 1, max: inputs }), { maxLength: 2 }),
      feeds: fc.array(aFeed(inputs), { minLength: 1, maxLength: 5 }),
    })
    .map(({ taken, feeds }) => ({ space: spaceOf(inputs, taken), feeds })),
);

describe("placeFeeds", () => {
  it("keeps as many places as can be, then the order, then the lowest inputs: tried against every way", () => {
    let tried = 0;
    let runs = 0;
    fc.assert(
      fc.property(cases, ({ space, feeds }) => {
        runs += 1;
        const all = everyWay(feeds, space.free);
        if (all.length === 0) return;
        tried += 1;
        const placed = placeFeeds(feeds, space);
        const kept = (ways: readonly PlacedFeed[]) =>
          ways.filter((p) => couldStay(p.feed, space) && stays(p));
        const most = Math.max(...all.map((way) => kept(way).length));
        expect(placed).toHaveLength(feeds.length);
        expect(
          all.some((way) => placed.every((p) => way.some((q) => q.feed === p.feed && q.input === p.input))),
        ).toBe(true);
        const staying = placed.filter((p) => stays(p)).map((p) => p.feed);
        expect(staying.length).toBe(most);
        const alike = all.filter((way) => staying.every((f) => way.some((p) => p.feed === f && stays(p))));
        const order = Math.min(...alike.map((way) => unusual(feeds, way)));
        expect(unusualPairs(feeds, placed)).toBe(order);
        const low = Math.min(...alike.filter((way) => unusual(feeds, way) === order).map(sum));
        expect(sum(placed)).toBe(low);
      }),
      { numRuns: 1000 },
    );
    // Of what was really run: a mutant is judged by fewer.
    expect(tried / runs).toBeGreaterThan(300 / 1000);
  });

  it("breaks the neighbours where most can stay", () => {
    const at = (now: number | null, width: 1 | 2 = 1): GroupedFeed => ({
      bus: null,
      width,
      items: [],
      placed: null,
      now,
    });
    const feeds = [at(null, 2), at(1), at(3), at(5), at(6)];
    const placed = placeFeeds(feeds, spaceOf(6, []));
    expect(placed.filter(stays).map(({ input }) => input)).toEqual([1, 5, 6]);
    expect(placed.find(({ feed }) => feed.width === 2)?.input).toBe(3);
  });

  it("stands what was placed by hand where it was put", () => {
    const feed = (width: 1 | 2, placed: number | null): GroupedFeed => ({
      bus: null,
      width,
      items: [],
      placed,
      now: null,
    });
    const feeds = [feed(1, null), feed(2, null), feed(1, 2)];
    const space = { ...spaceOf(6, [2]), placed: [] };
    expect(placeFeeds(feeds, space).map(({ input }) => input)).toEqual([1, 2, 3]);
  });
});
