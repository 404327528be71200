import type { MonitorInput, MonitorSystem, Setup } from "../model/setup";
import type { Sides } from "../model/units";
import { firstOfSide, patchedThings } from "./patched";

type Inputs = readonly (MonitorInput | null)[];

/** Whether two inputs are the two sides of one bus or channel. */
export const arePair = (a: MonitorInput | null | undefined, b: MonitorInput | null | undefined): boolean => {
  if (a?.feed.kind === "bus" && b?.feed.kind === "bus")
    return a.feed.bus === b.feed.bus && a.feed.side !== b.feed.side;
  if (a?.feed.kind !== "channel" || b?.feed.kind !== "channel" || a.feed.channel !== b.feed.channel)
    return false;
  const sides = [a.feed.side, b.feed.side];
  return sides.includes("left") && sides.includes("right");
};

/** What lies beyond the count, pairs of neighbours as one block. */
const blocksBeyond = ({ inputs, inputCount }: MonitorSystem): MonitorInput[][] => {
  const blocks: MonitorInput[][] = [];
  for (let i = inputCount; i < inputs.length; i += 1) {
    const input = inputs[i];
    if (!input) continue;
    const next = inputs[i + 1];
    const pair = next && arePair(input, next);
    blocks.push(pair ? [input, next] : [input]);
    if (pair) i += 1;
  }
  return blocks;
};

/** Everything in its order without gaps; what lay across the last input moves with the rest. */
const closedUp = ({ inputs, inputCount }: MonitorSystem): Inputs => {
  const kept = inputs.filter((input) => input !== null);
  return [...kept, ...Array(Math.max(0, inputCount - kept.length)).fill(null)];
};

const filled = (monitor: MonitorSystem): Inputs => {
  const { inputCount } = monitor;
  const inputs: (MonitorInput | null)[] = Array.from(
    { length: inputCount },
    (_, i) => monitor.inputs[i] ?? null,
  );
  const beyond: MonitorInput[] = [];
  // Pairs first: they are the harder to place.
  for (const block of blocksBeyond(monitor).sort((a, b) => b.length - a.length)) {
    const at = inputs.findIndex(
      (_, i) => i + block.length <= inputCount && block.every((_b, k) => !inputs[i + k]),
    );
    if (at >= 0) inputs.splice(at, block.length, ...block);
    else if (inputs.filter((s) => s === null).length >= block.length) return closedUp(monitor);
    else beyond.push(...block);
  }
  return [...inputs, ...beyond];
};

/** Where the two sides of every thing that has both arrive. */
const sidesAt = (setup: Setup): Map<string, { readonly at: Sides<number>; readonly meant: boolean }> =>
  new Map(
    patchedThings(setup).map((thing) => [
      `${thing.kind} ${thing.id}`,
      {
        at: [firstOfSide(setup, thing, "left"), firstOfSide(setup, thing, "right")],
        meant: thing.swapped,
      },
    ]),
  );

/** Sides that were apart and have come to lie beside each other, in the order in which they are meant. */
const inOrder = (setup: Setup, inputs: Inputs): Inputs => {
  const before = sidesAt(setup);
  const next = [...inputs];
  for (const [thing, { at, meant }] of sidesAt({ ...setup, monitor: { ...setup.monitor, inputs } })) {
    const [left, right] = at;
    const [wasLeft = -1, wasRight = -1] = before.get(thing)?.at ?? [];
    const wrong = meant ? right - left : left - right;
    if (left < 0 || right < 0 || wrong !== 1 || wasLeft - wasRight === left - right) continue;
    next[left] = inputs[right] ?? null;
    next[right] = inputs[left] ?? null;
  }
  return next;
};

/**
 * The inputs with what lies beyond the count moved into free ones within it, first place first, pairs as neighbours.
 * Nothing else moves, unless a pair finds no two free neighbours: then all gaps are closed and the order stays.
 * The two sides of a pair that meet by that lie as they are meant. Where there is no room for everything, the rest stays beyond.
 */
export const withinCount = (setup: Setup): Inputs => inOrder(setup, filled(setup.monitor));
