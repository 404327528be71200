import type { MonitorInput, Setup } from "../model/setup";
import type { Sides } from "../model/units";
import type { Edit } from "./issue";
import { type PatchedThing, repeatsOf } from "./patched";
import { firstFree } from "./usage";

/** Two feeds change inputs; switch and trim stay with the input. */
export const exchange = (setup: Setup, a: number, b: number): Edit[] => {
  const [first, second] = [setup.monitor.inputs[a] as MonitorInput, setup.monitor.inputs[b] as MonitorInput];
  return [
    { edit: "input", index: a, to: { ...first, feed: second.feed } },
    { edit: "input", index: b, to: { ...second, feed: first.feed } },
  ];
};

/**
 * Both sides into two neighbours that are free or become so, in the order in which they are meant. Nothing where there
 * is no room, nor where a side has a copy elsewhere: it might count instead, so the copies go first.
 */
export const intoNeighbours = (
  setup: Setup,
  thing: PatchedThing,
  from: readonly number[],
  [left, right]: Sides<MonitorInput>,
): Edit[] => {
  if (repeatsOf(setup, thing).length > 0) return [];
  const freed = from.map((index): Edit => ({ edit: "input", index, to: null }));
  const inputs = setup.monitor.inputs.map((s, i) => (from.includes(i) ? null : s));
  const run = firstFree({ ...setup.monitor, inputs }, 2);
  if (!run) return [];
  return [
    ...freed,
    { edit: "input", index: run[0] as number, to: thing.swapped ? right : left },
    { edit: "input", index: run[1] as number, to: thing.swapped ? left : right },
  ];
};
