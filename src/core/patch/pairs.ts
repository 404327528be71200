import type { Setup, Slot, Sum } from "../setup";
import { type Edit, flag, type PatchFlag } from "./flag";
import { firstOfSide, type Patched, patchedThings, sidesReversed } from "./sides";
import { firstFree, slotsOfSum } from "./usage";
import { slotsSaid } from "./words";

/** Two feeds change slots; switch and trim stay with the slot. */
const exchange = (setup: Setup, a: number, b: number): Edit[] => {
  const [first, second] = [setup.monitor.slots[a] as Slot, setup.monitor.slots[b] as Slot];
  return [
    { edit: "slot", index: a, to: { ...first, feed: second.feed } },
    { edit: "slot", index: b, to: { ...second, feed: first.feed } },
  ];
};

/** Both sides into two free neighbours, or the later one beside the earlier. */
const together = (setup: Setup, from: readonly [number, number]): Edit[] => {
  const [left, right] = from.map((i) => setup.monitor.slots[i] as Slot) as [Slot, Slot];
  const freed = from.map((index): Edit => ({ edit: "slot", index, to: null }));
  const slots = setup.monitor.slots.map((s, i) => (from.includes(i) ? null : s));
  const run = firstFree({ ...setup.monitor, slots }, 2);
  if (!run) return [];
  return [
    ...freed,
    { edit: "slot", index: run[0] as number, to: left },
    { edit: "slot", index: run[1] as number, to: right },
  ];
};

const about = (thing: Patched, slots: readonly number[]) => ({
  slots,
  sources: thing.kind === "source" ? [thing.id] : [],
  sums: thing.kind === "sum" ? [thing.id] : [],
});

const oneSide = (setup: Setup, thing: Patched, missing: "left" | "right"): PatchFlag[] => {
  const at = thing.slots.find((i) => setup.monitor.slots[i]?.on) ?? (thing.slots[0] as number);
  const has = setup.monitor.slots[at] as Slot;
  const free = [at + 1, at - 1].find((i) => i >= 0 && i < setup.monitor.slotCount && !setup.monitor.slots[i]);
  const feed = has.feed.kind === "leg" ? { ...has.feed, leg: missing } : { ...has.feed, channel: missing };
  const what = thing.kind === "sum" ? "leg" : "channel";
  const word = missing === "left" ? "right" : "left";
  return [
    flag(
      "only one side",
      "fault",
      about(thing, thing.slots),
      `Only the ${word} ${what} of ${thing.name} is patched: what is on the other side is missing.`,
      `Patch the ${missing} ${what} beside it, or make ${thing.name} mono.`,
      free === undefined ? [] : [{ edit: "slot", index: free, to: { ...has, feed } }],
    ),
  ];
};

const order = (setup: Setup, thing: Patched, meant: boolean, left: number, right: number): PatchFlag[] => {
  const reversed = sidesReversed(setup, thing);
  if (reversed === meant) return [];
  const slots = [Math.min(left, right), Math.max(left, right)];
  const sum = thing.kind === "sum";
  return [
    flag(
      reversed ? "reversed" : "straight",
      "fault",
      about(thing, slots),
      reversed
        ? `${thing.name} is patched in reverse order in ${slotsSaid(slots)}${sum ? ", and nothing says that it is meant" : ""}.`
        : `${thing.name} is meant to be patched in reverse order, but lies straight in ${slotsSaid(slots)}.`,
      `Exchange ${slotsSaid(slots)}${sum ? `, or say that ${thing.name} is ${reversed ? "" : "not "}meant to be swapped` : ""}.`,
      exchange(setup, left, right),
    ),
  ];
};

const neighbours = (setup: Setup, thing: Patched, left: number, right: number): PatchFlag[] => {
  const slots = [Math.min(left, right), Math.max(left, right)];
  const [first = 0] = slots;
  if (Math.abs(left - right) > 1) {
    return [
      flag(
        "split",
        "warn",
        about(thing, slots),
        `${thing.name} lies in ${slotsSaid(slots)}, which are not neighbours: a mixer that links neighbours can't make a pair of it.`,
        "Put both sides into neighbouring slots.",
        together(setup, [left, right]),
      ),
    ];
  }
  // Common practice, no source: personal mixers that link fixed pairs link 1 with 2, 3 with 4 and so on.
  if (first % 2 === 0) return [];
  return [
    flag(
      "odd and even",
      "note",
      about(thing, slots),
      `${thing.name} lies in ${slotsSaid(slots)}: a mixer that only links 1 and 2, 3 and 4 and so on can't make a pair of it.`,
      "If yours is one of them, begin the pair in an odd slot.",
    ),
  ];
};

const checked = (setup: Setup, thing: Patched, meant: boolean): PatchFlag[] => {
  const left = firstOfSide(setup, thing, "left");
  const right = firstOfSide(setup, thing, "right");
  if (left < 0 && right < 0) return [];
  if (left < 0 || right < 0) {
    const whole = firstOfSide(setup, thing, "both") >= 0;
    return whole ? [] : oneSide(setup, thing, left < 0 ? "left" : "right");
  }
  const apart = neighbours(setup, thing, left, right);
  return Math.abs(left - right) > 1 ? apart : [...order(setup, thing, meant, left, right), ...apart];
};

const spareLeg = (setup: Setup, sum: Sum): PatchFlag[] => {
  const right = slotsOfSum(setup.monitor, sum.id, "right");
  const both = [...slotsOfSum(setup.monitor, sum.id, "left"), ...right].sort((a, b) => a - b);
  if (right.length === 0 || both.length === right.length) return [];
  return [
    flag(
      "spare leg",
      "note",
      { slots: both, sums: [sum.id] },
      `${sum.name} is folded to mono: ${slotsSaid(both)} carry the same.`,
      `One slot is enough: free ${slotsSaid(right)}.`,
      right.map((index) => ({ edit: "slot", index, to: null })),
    ),
  ];
};

/** What is to be said of pairs and of sources with two channels: apart, the wrong way round, one side only. */
export const pairFlags = (setup: Setup): PatchFlag[] =>
  patchedThings(setup).flatMap((thing) => {
    if (!thing.stereo) return [];
    const sum = thing.kind === "sum" ? setup.sums.find((s) => s.id === thing.id) : undefined;
    if (sum?.folded) return spareLeg(setup, sum);
    return checked(setup, thing, sum?.reversed ?? false);
  });
