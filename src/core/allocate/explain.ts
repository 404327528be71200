import type { Id } from "../model/setup";
import { chargesOf, isApart, type Where } from "./charges";
import type { GroupedFeed } from "./feeds";
import type { AllocationItem } from "./items";
import { type LossCode, WORST_FIRST } from "./losses";
import type { AllocationProblem } from "./model";
import type { PlacedFeed } from "./place";
import type { Grouping } from "./solve";
import { inputsFrom } from "./space";

/** One thing that a plan loses. */
export interface PlanLoss {
  readonly code: LossCode;
  readonly channel: Id;
  /** Who must hear it and does not; empty but for `unheard`. */
  readonly musicians: readonly Id[];
}

/** Codes that say nothing to a musician: they count what the plan takes, or decide between equals. */
const UNTOLD: readonly LossCode[] = [
  "not-all-apart",
  "input-used",
  "bus-made",
  "changed",
  "channel-shares",
  "early-yields",
];

/** What each channel loses, worst first. */
export const planLosses = ({ goes }: Pick<Grouping, "goes">, { swapped }: AllocationProblem): PlanLoss[] => {
  const all = goes.map(({ item, where }) => ({ item, charges: chargesOf(item, where, new Set(swapped)) }));
  return WORST_FIRST.filter((code) => !UNTOLD.includes(code)).flatMap((code) =>
    all
      .filter(({ charges }) => (charges[code] ?? 0) > 0)
      .map(({ item }) => ({
        code,
        channel: item.channel.id,
        musicians: code === "unheard" ? item.hearers : [],
      })),
  );
};

/** What is otherwise than it is now. `gone` is on no input any longer, `moved` on another one. */
export type ChangeCode = "new" | "gone" | "moved";

/** A channel that is found elsewhere than now. */
export interface Change {
  readonly code: ChangeCode;
  readonly channel: Id;
  /** Inputs now, from 1. */
  readonly from: readonly number[];
  readonly to: readonly number[];
}

const same = (a: readonly number[], b: readonly number[]): boolean => a.join() === b.join();

/** What musicians find elsewhere than now, in the conventional order. */
export const changesOf = ({ goes }: Grouping, placed: readonly PlacedFeed[]): Change[] =>
  goes.flatMap(({ item }): Change[] => {
    const feed = placed.find((p) => p.feed.items.includes(item));
    const to = feed ? inputsFrom(feed.input, feed.feed.width) : [];
    const from = [...new Set(item.channel.currentInputs)].sort((a, b) => a - b);
    if (same(from, to)) return [];
    const code = from.length === 0 ? "new" : to.length === 0 ? "gone" : "moved";
    return [{ code, channel: item.channel.id, from, to }];
  });

/** What one musician can do at their own mixer, of what they must hear or play. */
export interface MusicianView {
  readonly musician: Id;
  /** On inputs of their own. */
  readonly apart: readonly Id[];
  /** Together on one knob: whatever of it this musician wants, and how many others lie with it. */
  readonly together: readonly {
    readonly inputs: readonly number[];
    readonly wants: readonly Id[];
    readonly others: number;
  }[];
  readonly missing: readonly Id[];
}

/** What each musician can and cannot mix apart. */
export const planViews = (
  problem: AllocationProblem,
  { goes }: Grouping,
  placed: readonly PlacedFeed[],
): MusicianView[] =>
  problem.musicians.map(({ id }) => {
    const wants = ({ hearers, channel }: AllocationItem): boolean =>
      hearers.includes(id) || channel.player === id;
    const ids = (test: (where: Where) => boolean): Id[] =>
      goes.filter(({ item, where }) => wants(item) && test(where)).map(({ item }) => item.channel.id);
    const together = placed
      .filter(({ feed }) => feed.bus !== null && feed.bus.level !== "instrument")
      .map(({ feed, input }) => {
        const wanted = feed.items.filter(wants).map((item) => item.channel.id);
        return {
          inputs: inputsFrom(input, feed.width),
          wants: wanted,
          others: feed.items.length - wanted.length,
        };
      })
      .filter((t) => t.wants.length > 0);
    return { musician: id, apart: ids(isApart), together, missing: ids((where) => where.as === "out") };
  });

/** What decides whether two plans are the same but for the numbers: who shares with whom, in mono or stereo. */
export const structureOf = (feeds: readonly GroupedFeed[]): string =>
  feeds
    .map(({ width, items }) => JSON.stringify([width, items.map((item) => item.channel.id).sort()]))
    .sort()
    .join();
