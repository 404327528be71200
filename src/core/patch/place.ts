import type { Monitor, Setup, Slot } from "../setup";
import type { Legs } from "../units";
import { firstOfSide, patchedThings } from "./sides";

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

const filled = (monitor: Monitor): Slots => {
  const { slotCount } = monitor;
  const slots: (Slot | null)[] = Array.from({ length: slotCount }, (_, i) => monitor.slots[i] ?? null);
  const beyond: Slot[] = [];
  // Pairs first: they are the harder to place.
  for (const block of blocksBeyond(monitor).sort((a, b) => b.length - a.length)) {
    const at = slots.findIndex(
      (_, i) => i + block.length <= slotCount && block.every((_b, k) => !slots[i + k]),
    );
    if (at >= 0) slots.splice(at, block.length, ...block);
    else if (slots.filter((s) => s === null).length >= block.length) return closedUp(monitor);
    else beyond.push(...block);
  }
  return [...slots, ...beyond];
};

/** Where the two sides of every thing that has both arrive. */
const sidesAt = (setup: Setup): Map<string, { readonly at: Legs<number>; readonly meant: boolean }> =>
  new Map(
    patchedThings(setup).map((thing) => [
      `${thing.kind} ${thing.id}`,
      {
        at: [firstOfSide(setup, thing, "left"), firstOfSide(setup, thing, "right")],
        meant: thing.reversed,
      },
    ]),
  );

/** Sides that were apart and have come to lie beside each other, in the order in which they are meant. */
const inOrder = (setup: Setup, slots: Slots): Slots => {
  const before = sidesAt(setup);
  const next = [...slots];
  for (const [thing, { at, meant }] of sidesAt({ ...setup, monitor: { ...setup.monitor, slots } })) {
    const [left, right] = at;
    const [wasLeft = -1, wasRight = -1] = before.get(thing)?.at ?? [];
    const wrong = meant ? right - left : left - right;
    if (left < 0 || right < 0 || wrong !== 1 || wasLeft - wasRight === left - right) continue;
    next[left] = slots[right] ?? null;
    next[right] = slots[left] ?? null;
  }
  return next;
};

/**
 * The slots with what lies beyond the count moved into free ones within it, first place first, pairs as neighbours.
 * Nothing else moves, unless a pair finds no two free neighbours: then all gaps are closed and the order stays.
 * The two sides of a pair that meet by that lie as they are meant. Where there is no room for everything, the rest stays beyond.
 */
export const withinCount = (setup: Setup): Slots => inOrder(setup, filled(setup.monitor));
