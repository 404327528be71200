import type { Monitor, Setup, Sum } from "./setup";
import type { Side } from "./units";

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
