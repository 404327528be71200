import { couldStay, type GroupedFeed } from "./feeds";
import type { Space } from "./space";

interface Block {
  /** A stereo feed that could stay here. */
  stereo: GroupedFeed | null;
  /** Mono feeds that could stay here, one a half. */
  readonly mono: Map<number, GroupedFeed>;
}

/** First input of the odd/even neighbours that an input belongs to. */
const blockOf = (input: number): number => input - 1 + (input % 2);

/**
 * Feeds that stay where musicians have them on their knobs: as many as can; of equal choices the lowest inputs, and of
 * feeds with the same place the first in the conventional order.
 *
 * Each feed has one place to stay, so feeds only compete within odd/even neighbours: there a stereo feed can stay, or
 * one or two mono feeds. Staying mono feeds break neighbours, of which as many must remain as there are stereo feeds;
 * nothing else is scarce, because a mono feed fits on any half. So where mono feeds gain most, neighbours are broken, as
 * far as they may be: an exchange of any two choices gains nothing.
 */
export const stayingOf = (feeds: readonly GroupedFeed[], space: Space): Set<GroupedFeed> => {
  const blocks = new Map<number, Block>();
  for (const feed of feeds) {
    if (feed.now === null || !couldStay(feed, space)) continue;
    const at = blockOf(feed.now);
    const block = blocks.get(at) ?? { stereo: null, mono: new Map() };
    blocks.set(at, block);
    if (feed.width === 2) block.stereo ??= feed;
    else if (!block.mono.has(feed.now)) block.mono.set(feed.now, feed);
  }
  const wide = feeds.filter((f) => f.width === 2 && f.placed === null).length;
  let mayBreak = space.pairs.length - wide;
  const staying = new Set<GroupedFeed>();
  const gain = ({ stereo, mono }: Block): number => mono.size - (stereo ? 1 : 0);
  for (const [at, block] of [...blocks].sort((a, b) => gain(b[1]) - gain(a[1]) || a[0] - b[0])) {
    const isPair = space.pairs.includes(at);
    if (block.mono.size > 0 && (!isPair || (gain(block) > 0 && mayBreak > 0))) {
      for (const feed of block.mono.values()) staying.add(feed);
      if (isPair) mayBreak -= 1;
    } else if (block.stereo) staying.add(block.stereo);
  }
  return staying;
};
