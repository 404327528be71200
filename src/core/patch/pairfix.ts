import type { Setup, Slot } from "../setup";
import type { Legs } from "../units";
import type { Edit } from "./flag";
import { type Patched, repeatsOf } from "./sides";
import { firstFree } from "./usage";

/** Two feeds change slots; switch and trim stay with the slot. */
export const exchange = (setup: Setup, a: number, b: number): Edit[] => {
  const [first, second] = [setup.monitor.slots[a] as Slot, setup.monitor.slots[b] as Slot];
  return [
    { edit: "slot", index: a, to: { ...first, feed: second.feed } },
    { edit: "slot", index: b, to: { ...second, feed: first.feed } },
  ];
};

/**
 * Both sides into two neighbours that are free or become so, in the order in which they are meant. Nothing where there
 * is no room, nor where a side has a copy elsewhere: it might count instead, so the copies go first.
 */
export const intoNeighbours = (
  setup: Setup,
  thing: Patched,
  from: readonly number[],
  [left, right]: Legs<Slot>,
): Edit[] => {
  if (repeatsOf(setup, thing).length > 0) return [];
  const freed = from.map((index): Edit => ({ edit: "slot", index, to: null }));
  const slots = setup.monitor.slots.map((s, i) => (from.includes(i) ? null : s));
  const run = firstFree({ ...setup.monitor, slots }, 2);
  if (!run) return [];
  return [
    ...freed,
    { edit: "slot", index: run[0] as number, to: thing.reversed ? right : left },
    { edit: "slot", index: run[1] as number, to: thing.reversed ? left : right },
  ];
};
