import type { Setup, Slot } from "../setup";
import { slotsSaid } from "../words";
import { type Edit, flag, type PatchFlag } from "./flag";
import { exchange, intoNeighbours } from "./pairfix";
import { about, firstOfSide, type Patched, patchedThings, repeatsOf, sidesReversed } from "./sides";

const oneSide = (setup: Setup, thing: Patched, missing: "left" | "right"): PatchFlag[] => {
  const { slots, slotCount } = setup.monitor;
  const at = firstOfSide(setup, thing, missing === "left" ? "right" : "left");
  const has = slots[at] as Slot;
  // In reverse order the left side belongs behind the right one.
  const beside = (missing === "right") !== thing.reversed ? at + 1 : at - 1;
  const isFree = beside >= 0 && beside < slotCount && !slots[beside];
  const feed = has.feed.kind === "leg" ? { ...has.feed, leg: missing } : { ...has.feed, channel: missing };
  const mate: Slot = { ...has, feed };
  const fix: Edit[] = isFree
    ? [{ edit: "slot", index: beside, to: mate }]
    : intoNeighbours(setup, thing, [at], missing === "right" ? [has, mate] : [mate, has]);
  const what = thing.kind === "sum" ? "leg" : "channel";
  const word = missing === "left" ? "right" : "left";
  return [
    flag(
      "only one side",
      "fault",
      about(thing),
      `Only the ${word} ${what} of ${thing.name} is patched: what is on the other side is missing.`,
      `Patch the ${missing} ${what} beside it, or make ${thing.name} mono.`,
      fix,
    ),
  ];
};

const order = (setup: Setup, thing: Patched, left: number, right: number): PatchFlag[] => {
  const reversed = sidesReversed(setup, thing);
  if (reversed === thing.reversed) return [];
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
        `${thing.name} lies in ${slotsSaid(slots)}, which are not neighbours: a mixer that links neighbours can’t make a pair of it.`,
        "Put both sides into neighbouring slots.",
        intoNeighbours(
          setup,
          thing,
          [left, right],
          [setup.monitor.slots[left] as Slot, setup.monitor.slots[right] as Slot],
        ),
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
      `${thing.name} lies in ${slotsSaid(slots)}: a mixer that only links 1 and 2, 3 and 4 and so on can’t make a pair of it.`,
      "If yours is one of them, begin the pair in an odd slot.",
    ),
  ];
};

const checked = (setup: Setup, thing: Patched): PatchFlag[] => {
  const left = firstOfSide(setup, thing, "left");
  const right = firstOfSide(setup, thing, "right");
  if (left < 0 || right < 0) {
    const whole = firstOfSide(setup, thing, "both") >= 0;
    return whole ? [] : oneSide(setup, thing, left < 0 ? "left" : "right");
  }
  return [...order(setup, thing, left, right), ...neighbours(setup, thing, left, right)];
};

const spareLeg = (setup: Setup, thing: Patched): PatchFlag[] => {
  const spare = repeatsOf(setup, thing).map((r) => r.index);
  if (spare.length === 0) return [];
  return [
    flag(
      "spare leg",
      "note",
      about(thing),
      `${thing.name} is folded to mono: ${slotsSaid(thing.slots)} carry the same.`,
      `One slot is enough: free ${slotsSaid(spare)}.`,
      spare.map((index) => ({ edit: "slot", index, to: null })),
    ),
  ];
};

/** What is to be said of pairs and of sources with two channels: apart, the wrong way round, one side only. */
export const pairFlags = (setup: Setup): PatchFlag[] =>
  patchedThings(setup).flatMap((thing) => {
    if (!thing.stereo) return [];
    return thing.folded ? spareLeg(setup, thing) : checked(setup, thing);
  });
