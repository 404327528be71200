import { isReversed } from "../patched";
import type { Id, Setup, Slot, Source, Sum } from "../setup";
import type { Side } from "../units";
import { slotsOfSource, slotsOfSum } from "./usage";

/** A source or sum with the slots it has. */
export interface Patched {
  readonly kind: "source" | "sum";
  readonly id: Id;
  readonly name: string;
  /** It has two sides: a source of two channels, or a pair. */
  readonly stereo: boolean;
  /** Indexes of all its slots, in order; at least one. */
  readonly slots: readonly number[];
}

/** Which side of its source or sum a slot carries. */
export const sideOf = (slot: Slot): Side | "both" =>
  slot.feed.kind === "leg" ? slot.feed.leg : slot.feed.channel;

/** Everything that has a slot: the sums, then the sources, in the setup's order. */
export const patchedThings = (setup: Setup): Patched[] => {
  const { monitor } = setup;
  const of = (kind: Patched["kind"], thing: Source | Sum, stereo: boolean): Patched => ({
    kind,
    id: thing.id,
    name: thing.name,
    stereo,
    slots: kind === "sum" ? slotsOfSum(monitor, thing.id) : slotsOfSource(monitor, thing.id),
  });
  return [
    ...setup.sums.map((sum) => of("sum", sum, sum.stereo)),
    ...setup.sources.map((source) => of("source", source, source.channels === 2)),
  ].filter((thing) => thing.slots.length > 0);
};

/** Index of the first slot that carries a side, or −1. */
export const firstOfSide = (setup: Setup, thing: Patched, side: Side | "both"): number =>
  thing.slots.find((i) => sideOf(setup.monitor.slots[i] as Slot) === side) ?? -1;

/**
 * Slots that bring nothing new, by index, each with the one it repeats: the same side again (the one that is on
 * stays), a source of two channels once more as mono, or the other leg of a folded sum.
 */
export const repeatsOf = (
  setup: Setup,
  thing: Patched,
): { readonly index: number; readonly of: number }[] => {
  const slotAt = (i: number): Slot => setup.monitor.slots[i] as Slot;
  const folded = thing.kind === "sum" && setup.sums.some((s) => s.id === thing.id && s.folded);
  const order = [...thing.slots].sort((a, b) => Number(slotAt(b).on) - Number(slotAt(a).on) || a - b);
  const apart = (["left", "right"] as const).map((side) => firstOfSide(setup, thing, side));
  const mixed = thing.stereo && apart.every((i) => i >= 0);
  const first = new Map<string, number>();
  const repeats: { index: number; of: number }[] = [];
  for (const index of order) {
    const side = sideOf(slotAt(index));
    const key = folded ? "both" : side;
    const was = first.get(key) ?? (mixed && !folded && side === "both" ? (apart[0] as number) : undefined);
    if (was === undefined) first.set(key, index);
    else repeats.push({ index, of: was });
  }
  return repeats.sort((a, b) => a.index - b.index);
};

/** Whether the sides reach the listeners the other way round: the legs as patched or meant, the channels as they lie. */
export const sidesReversed = (setup: Setup, thing: Patched): boolean => {
  if (thing.kind === "sum") {
    const sum = setup.sums.find((s) => s.id === thing.id);
    return sum?.stereo === true && isReversed(setup, sum);
  }
  const left = firstOfSide(setup, thing, "left");
  return left >= 0 && firstOfSide(setup, thing, "right") === left - 1;
};
