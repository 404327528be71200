import type { Id } from "../model/setup";
import type { AllocationItem } from "./items";
import type { BusOf, Width } from "./model";
import type { Grouping } from "./solve";
import { inputsFrom, type Space } from "./space";

/** What goes into one monitor input or two. */
export interface GroupedFeed {
  /** The bus; null for a channel alone. */
  readonly bus: BusOf | null;
  readonly width: Width;
  /** In the conventional order. */
  readonly items: readonly AllocationItem[];
  /** First of its inputs as put there by hand; null where it is free. */
  readonly placed: number | null;
  /** First of the inputs where musicians find it now, and where it could stand; null where there is none. */
  readonly now: number | null;
}

/** Where most of the channels are now, the lowest of equals; null where nothing of it is heard now. */
const nowOf = (items: readonly AllocationItem[]): number | null => {
  const counts = new Map<number, number>();
  for (const { channel } of items)
    if (channel.currentInputs.length > 0) {
      const first = Math.min(...channel.currentInputs);
      counts.set(first, (counts.get(first) ?? 0) + 1);
    }
  const [most] = [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0]);
  return most?.[0] ?? null;
};

/** The feeds of a grouping in the conventional order: each where its first channel belongs, the fold-back bus last. */
export const planFeeds = ({ goes, buses }: Grouping, { placed }: Space): GroupedFeed[] => {
  const channelPlace = (id: Id) =>
    placed.find(({ of }) => "channel" in of && of.channel === id)?.input ?? null;
  const busPlace = (id: Id) => placed.find(({ of }) => "bus" in of && of.bus === id)?.input ?? null;
  const alone = goes.flatMap(({ item, where }): GroupedFeed[] =>
    where.as === "own"
      ? [
          {
            bus: null,
            width: where.width,
            items: [item],
            placed: channelPlace(item.channel.id),
            now: nowOf([item]),
          },
        ]
      : [],
  );
  const made = buses.map(({ node, width, items }): GroupedFeed => {
    const { id, level, family, section, instrument } = node;
    const bus = { id, level, family, section, instrument };
    return { bus, width, items, placed: busPlace(id), now: nowOf(items) };
  });
  const order = goes.map(({ item }) => item);
  const rank = ({ bus, items: [first] }: GroupedFeed): number =>
    bus?.level === "fold-back" || !first ? order.length : order.indexOf(first);
  return [...alone, ...made].sort((a, b) => rank(a) - rank(b));
};

/** Whether a feed could stand where it is now. */
export const couldStay = ({ placed, now, width }: GroupedFeed, { free }: Space): boolean =>
  placed === null &&
  now !== null &&
  (width === 1 || now % 2 === 1) &&
  inputsFrom(now, width).every((n) => free.includes(n));
