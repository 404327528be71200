import { legsOf } from "../legs";
import { partsOf } from "../mix";
import type { Id, Monitor, Setup, Sum } from "../setup";
import type { Side } from "../units";

/** How the slots are used. Indexes count from 0. */
export interface Usage {
  /** Slots that take something, in order. */
  readonly used: readonly number[];
  /** Slots that take something beyond the count: kept and shown, never dropped. */
  readonly over: readonly number[];
  /** Free slots within the count, in order: the first is the next to be filled. */
  readonly free: readonly number[];
  /** How many slots must be freed until everything has room; 0 when it has. */
  readonly tooMany: number;
  /** Sources that have no slot of their own, in the setup's order. */
  readonly sourcesWithout: readonly Id[];
  /** Legs that have no slot, in the setup's order; a mono sum has its left one only. */
  readonly legsWithout: readonly { readonly sum: Id; readonly leg: Side }[];
}

/** Indexes of the slots that a source has of its own. */
export const slotsOfSource = (monitor: Monitor, source: Id): number[] =>
  monitor.slots.flatMap((s, i) => (s?.feed.kind === "source" && s.feed.source === source ? [i] : []));

/** Indexes of the slots that a sum, or one leg of it, has. */
export const slotsOfSum = (monitor: Monitor, sum: Id, leg?: Side): number[] =>
  monitor.slots.flatMap((s, i) =>
    s?.feed.kind === "leg" && s.feed.sum === sum && (leg ?? s.feed.leg) === s.feed.leg ? [i] : [],
  );

/** Whether any of the slots is switched on. */
export const anyOn = (monitor: Monitor, slots: readonly number[]): boolean =>
  slots.some((i) => monitor.slots[i]?.on === true);

/** Sums that reach the listeners: at least one leg in a slot that is on. */
export const sumsFed = (setup: Setup): Sum[] =>
  setup.sums.filter((sum) => anyOn(setup.monitor, slotsOfSum(setup.monitor, sum.id)));

/** Sources that sound in a sum which reaches the listeners. */
export const sourcesInSums = (setup: Setup): ReadonlySet<Id> =>
  new Set(sumsFed(setup).flatMap((sum) => partsOf(setup, sum).map((p) => p.source.id)));

/**
 * The first free slots within the count that are neighbours.
 * @param count how many
 * @returns their indexes; null when there is no such place
 */
export const firstFree = (monitor: Monitor, count: number): readonly number[] | null => {
  for (let start = 0; start + count <= monitor.slotCount; start += 1) {
    const run = Array.from({ length: count }, (_, i) => start + i);
    if (run.every((i) => !monitor.slots[i])) return run;
  }
  return null;
};

/** Indexes of the slots that take something, in order. */
const usedSlots = ({ slots }: Monitor): number[] => slots.flatMap((slot, i) => (slot ? [i] : []));

/** How many slots are left for something new: what lies beyond the count wants one before. */
export const slotsLeft = (monitor: Monitor): number =>
  Math.max(0, monitor.slotCount - usedSlots(monitor).length);

/** How the slots are used, what is over the count and what has no slot. */
export const usageOf = (setup: Setup): Usage => {
  const { monitor } = setup;
  const used = usedSlots(monitor);
  const free = Array.from({ length: monitor.slotCount }, (_, i) => i).filter((i) => !monitor.slots[i]);
  const legs = setup.sums.flatMap((sum) => legsOf(sum).map((leg) => ({ sum: sum.id, leg })));
  return {
    used,
    over: used.filter((i) => i >= monitor.slotCount),
    free,
    tooMany: Math.max(0, used.length - monitor.slotCount),
    sourcesWithout: setup.sources.map((s) => s.id).filter((id) => slotsOfSource(monitor, id).length === 0),
    legsWithout: legs.filter(({ sum, leg }) => slotsOfSum(monitor, sum, leg).length === 0),
  };
};
