import type { GroupedFeed } from "./feeds";
import { stayingOf } from "./keep";
import { inputsFrom, type Space } from "./space";

/** A feed on its inputs. */
export interface PlacedFeed {
  readonly feed: GroupedFeed;
  /** The first of its inputs, from 1. */
  readonly input: number;
}

/** A way to place some of the feeds, the last first. */
interface EarPath {
  readonly cost: number;
  readonly last: PlacedFeed | null;
  readonly before: EarPath | null;
}

/** One pair of feeds in unusual order costs more than all input numbers together. */
const UNUSUAL = 2 ** 24;

const placedBy = (way: EarPath): PlacedFeed[] =>
  way.last && way.before ? [...placedBy(way.before), way.last] : [];

/**
 * Feeds on inputs, stereo on odd and even neighbours. What was placed by hand stands; then as many feeds as can stay where
 * they are now; then as few pairs of feeds as can stand in unusual order; then the lowest inputs. Exact for each of these
 * with those before it given.
 *
 * For the order: two feeds of equal width that are free and stand the wrong way round can be exchanged, which never makes
 * another pair worse; so mono feeds among themselves and stereo feeds among themselves stand in order, and what stands on
 * the first inputs is known from how many of each do. That is the state, input by input.
 */
export const placeFeeds = (feeds: readonly GroupedFeed[], space: Space): PlacedFeed[] => {
  const staying = stayingOf(feeds, space);
  const fixed = feeds.flatMap((feed): PlacedFeed[] => {
    const input = feed.placed ?? (staying.has(feed) ? feed.now : null);
    return input === null ? [] : [{ feed, input }];
  });
  const rank = new Map(feeds.map((feed, i) => [feed, i]));
  const rankOf = (feed: GroupedFeed): number => rank.get(feed) as number;
  const loose = feeds.filter((feed) => !fixed.some((f) => f.feed === feed));
  const [mono, stereo] = [1, 2].map((width) => loose.filter((feed) => feed.width === width)) as [
    GroupedFeed[],
    GroupedFeed[],
  ];
  const taken = new Set(fixed.flatMap(({ feed, input }) => inputsFrom(input, feed.width)));
  const free = new Set(space.free.filter((n) => !taken.has(n)));

  const later = (placed: readonly GroupedFeed[], feed: GroupedFeed): number =>
    placed.filter((other) => rankOf(other) > rankOf(feed)).length;
  const unusual = (feed: GroupedFeed, input: number, m: number, s: number): number =>
    later(mono.slice(0, m), feed) +
    later(stereo.slice(0, s), feed) +
    fixed.filter((f) => f.input < input !== rankOf(f.feed) < rankOf(feed)).length;

  const row = stereo.length + 1;
  /** By input reached, mono feeds placed and stereo feeds placed. */
  const ways = Array.from({ length: Math.max(0, ...space.free) + 2 }, () => new Map<number, EarPath>());
  const reach = (input: number, state: number, way: EarPath): void => {
    const known = ways[input]?.get(state);
    if (!known || way.cost < known.cost) ways[input]?.set(state, way);
  };
  reach(1, 0, { cost: 0, last: null, before: null });
  for (let input = 1; input < ways.length - 1; input += 1)
    for (const [state, way] of ways[input] ?? []) {
      const m = Math.floor(state / row);
      const s = state % row;
      reach(input + 1, state, way);
      const put = (feed: GroupedFeed | undefined, next: number): void => {
        if (!feed || !inputsFrom(input, feed.width).every((n) => free.has(n))) return;
        const cost = way.cost + unusual(feed, input, m, s) * UNUSUAL + input;
        reach(input + feed.width, next, { cost, last: { feed, input }, before: way });
      };
      put(mono[m], state + row);
      if (input % 2 === 1) put(stereo[s], state + 1);
    }
  const end = ways.at(-1)?.get(mono.length * row + stereo.length);
  return [...fixed, ...(end ? placedBy(end) : [])].sort((a, b) => a.input - b.input);
};

/** How many pairs of feeds stand in other than the conventional order. */
export const unusualPairs = (feeds: readonly GroupedFeed[], placed: readonly PlacedFeed[]): number => {
  const ranks = placed.map(({ feed }) => feeds.indexOf(feed));
  return ranks.reduce((sum, r, i) => sum + ranks.slice(0, i).filter((before) => before > r).length, 0);
};
