import type { Monitor, Slot } from "../setup";

type Slots = readonly (Slot | null)[];

/** Whether two slots are the two sides of one sum or source. */
export const arePair = (a: Slot | null | undefined, b: Slot | null | undefined): boolean => {
  if (a?.feed.kind === "leg" && b?.feed.kind === "leg")
    return a.feed.sum === b.feed.sum && a.feed.leg !== b.feed.leg;
  if (a?.feed.kind !== "source" || b?.feed.kind !== "source" || a.feed.source !== b.feed.source) return false;
  const sides = [a.feed.channel, b.feed.channel];
  return sides.includes("left") && sides.includes("right");
};

/** What lies beyond the count, pairs of neighbours as one block. */
const blocksBeyond = ({ slots, slotCount }: Monitor): Slot[][] => {
  const blocks: Slot[][] = [];
  for (let i = slotCount; i < slots.length; i += 1) {
    const slot = slots[i];
    if (!slot) continue;
    const next = slots[i + 1];
    const pair = next && arePair(slot, next);
    blocks.push(pair ? [slot, next] : [slot]);
    if (pair) i += 1;
  }
  return blocks;
};

/** Everything in its order without gaps; what lay across the last slot moves with the rest. */
const closedUp = ({ slots, slotCount }: Monitor): Slots => {
  const kept = slots.filter((slot) => slot !== null);
  return [...kept, ...Array(Math.max(0, slotCount - kept.length)).fill(null)];
};

/**
 * The slots with what lies beyond the count moved into free ones within it, first place first, pairs as neighbours.
 * Nothing else moves, unless a pair finds no two free neighbours: then all gaps are closed and the order stays.
 * Where there is no room for everything, the rest stays beyond.
 */
export const withinCount = (monitor: Monitor): Slots => {
  const { slotCount } = monitor;
  const slots: (Slot | null)[] = Array.from({ length: slotCount }, (_, i) => monitor.slots[i] ?? null);
  const beyond: Slot[] = [];
  // Pairs first: they are the harder to place.
  for (const block of blocksBeyond(monitor).sort((a, b) => b.length - a.length)) {
    const at = slots.findIndex(
      (_, i) => i + block.length <= slotCount && block.every((_b, k) => !slots[i + k]),
    );
    if (at >= 0) slots.splice(at, block.length, ...block);
    else if (block.length > 1 && slots.filter((s) => s === null).length >= block.length)
      return closedUp(monitor);
    else beyond.push(...block);
  }
  return beyond.length === 0 ? slots : [...slots, ...beyond];
};
