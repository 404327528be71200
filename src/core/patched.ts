import type { Id, Monitor, Setup, Slot, Sum } from "./setup";
import type { Db, Legs, Side } from "./units";

/** Index of the first slot that takes a leg of a sum, or −1. */
export const slotOfLeg = (monitor: Monitor, sum: Sum, leg: Side): number =>
  monitor.slots.findIndex((s) => s?.feed.kind === "leg" && s.feed.sum === sum.id && s.feed.leg === leg);

/** How the two legs of a pair lie in the slots. */
export type PatchedOrder = "straight" | "reversed" | "split" | "partly" | "not patched";

/** How the two legs of a pair lie in the slots: neighbours in order, neighbours in reverse, apart, only one, none. */
export const patchedOrder = (monitor: Monitor, sum: Sum): PatchedOrder => {
  const left = slotOfLeg(monitor, sum, "left");
  const right = slotOfLeg(monitor, sum, "right");
  if (left < 0 && right < 0) return "not patched";
  if (left < 0 || right < 0) return "partly";
  return right === left + 1 ? "straight" : right === left - 1 ? "reversed" : "split";
};

/** Whether the legs reach the listeners reversed: as they lie in the slots, else as they are meant to be patched. */
export const isReversed = (setup: Pick<Setup, "monitor">, sum: Sum): boolean => {
  const order = patchedOrder(setup.monitor, sum);
  return order === "straight" ? false : order === "reversed" ? true : sum.reversed;
};

/** Trim of the slot that takes each leg, dB; 0 for a leg without a slot. */
export const slotTrims = (monitor: Monitor, sum: Sum): Legs<Db> => {
  const trim = (leg: Side): Db => monitor.slots[slotOfLeg(monitor, sum, leg)]?.trim ?? 0;
  return [trim("left"), trim("right")];
};

/** Whether each leg has a slot, so that they can change places. */
export const hasBothSlots = (monitor: Monitor, sum: Sum): boolean =>
  slotOfLeg(monitor, sum, "left") >= 0 && slotOfLeg(monitor, sum, "right") >= 0;

const otherLeg = (slot: Slot | null, sum: Id): Slot | null =>
  slot?.feed.kind === "leg" && slot.feed.sum === sum
    ? { ...slot, feed: { ...slot.feed, leg: slot.feed.leg === "left" ? "right" : "left" } }
    : slot;

/**
 * The setup with a pair swapped: its legs change slots, where both have one (each slot keeps its trim and switch),
 * and the plan says so.
 */
export const withPairSwapped = <T extends Pick<Setup, "sums" | "monitor">>(setup: T, sum: Sum): T => {
  const { monitor } = setup;
  const reversed = !isReversed(setup, sum);
  return {
    ...setup,
    sums: setup.sums.map((s) => (s.id === sum.id ? { ...s, reversed } : s)),
    monitor: hasBothSlots(monitor, sum)
      ? { ...monitor, slots: monitor.slots.map((slot) => otherLeg(slot, sum.id)) }
      : monitor,
  };
};
