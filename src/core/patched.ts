import { gainOf } from "./decibels";
import type { Id, Monitor, Setup, Slot, Sum } from "./setup";
import type { Db, Gain, Legs, Side } from "./units";
import { withSum } from "./withsum";

/** Index of the slot by which a leg of a sum arrives: the first that is on, else the first that takes it; −1 without one. */
export const slotOfLeg = (monitor: Monitor, sum: Sum, leg: Side): number => {
  const takes = (s: Slot | null): boolean =>
    s?.feed.kind === "leg" && s.feed.sum === sum.id && s.feed.leg === leg;
  const on = monitor.slots.findIndex((s) => s?.on && takes(s));
  return on >= 0 ? on : monitor.slots.findIndex(takes);
};

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

/** What the slot of each leg makes of it; a mono sum has one slot for both. */
const ofSlots = <T>(monitor: Monitor, sum: Sum, make: (slot: Slot | null | undefined) => T): Legs<T> => {
  const of = (leg: Side): T => make(monitor.slots[slotOfLeg(monitor, sum, leg)]);
  return [of("left"), of(sum.stereo ? "right" : "left")];
};

/** Trim of the slot that takes each leg, dB; 0 for a leg without a slot. */
export const slotTrims = (monitor: Monitor, sum: Sum): Legs<Db> => ofSlots(monitor, sum, (s) => s?.trim ?? 0);

/** Whether the slot of each leg is switched off; a leg without a slot is not. */
export const legsOff = (monitor: Monitor, sum: Sum): Legs<boolean> =>
  ofSlots(monitor, sum, (s) => s?.on === false);

/** Gain of the slot that takes each leg: 0 where it is off, 1 for a leg without a slot. */
export const slotGains = (monitor: Monitor, sum: Sum): Legs<Gain> =>
  ofSlots(monitor, sum, (s) => (s?.on === false ? 0 : gainOf(s?.trim ?? 0)));

/** Whether each leg has a slot, so that they can change places. */
export const hasBothSlots = (monitor: Monitor, sum: Sum): boolean =>
  slotOfLeg(monitor, sum, "left") >= 0 && slotOfLeg(monitor, sum, "right") >= 0;

const otherLeg = (slot: Slot | null, sum: Id): Slot | null =>
  slot?.feed.kind === "leg" && slot.feed.sum === sum
    ? { ...slot, feed: { ...slot.feed, leg: slot.feed.leg === "left" ? "right" : "left" } }
    : slot;

/** The slots with the legs of a pair the other way round: each slot keeps its trim and switch. */
export const withLegsExchanged = (monitor: Monitor, sum: Sum): Monitor => ({
  ...monitor,
  slots: monitor.slots.map((slot) => otherLeg(slot, sum.id)),
});

/** The setup with a pair swapped: its legs change slots, where both have one, and the plan says so. */
export const withPairSwapped = <T extends Pick<Setup, "sums" | "monitor">>(setup: T, sum: Sum): T => {
  const { monitor } = setup;
  const reversed = !isReversed(setup, sum);
  return {
    ...withSum(setup, sum.id, (s) => ({ ...s, reversed })),
    monitor: hasBothSlots(monitor, sum) ? withLegsExchanged(monitor, sum) : monitor,
  };
};
