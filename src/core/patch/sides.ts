import { sourceCalled, sumCalled } from "../called";
import { isReversed } from "../patched";
import type { Id, Setup, Slot } from "../setup";
import type { Side } from "../units";
import { slotsOfSource, slotsOfSum } from "./usage";

/** A source or sum with the slots it has. */
export interface Patched {
  readonly kind: "source" | "sum";
  readonly id: Id;
  readonly name: string;
  /** It has two sides: a source of two channels, or a pair. */
  readonly stereo: boolean;
  /** A pair that is meant to lie in reverse order; how it lies is `sidesReversed`. */
  readonly reversed: boolean;
  /** A sum that is folded to mono: its legs carry the same. */
  readonly folded: boolean;
  /** Indexes of all its slots, in order; at least one. */
  readonly slots: readonly number[];
}

/** Which side of its source or sum a slot carries. */
export const sideOf = (slot: Pick<Slot, "feed">): Side | "both" =>
  slot.feed.kind === "leg" ? slot.feed.leg : slot.feed.channel;

/** Everything that has a slot: the sums, then the sources, in the setup's order. */
export const patchedThings = (setup: Setup): Patched[] => {
  const { monitor } = setup;
  return [
    ...setup.sums.map(
      (sum): Patched => ({
        kind: "sum",
        id: sum.id,
        name: sumCalled(sum),
        stereo: sum.stereo,
        reversed: sum.reversed,
        folded: sum.folded,
        slots: slotsOfSum(monitor, sum.id),
      }),
    ),
    ...setup.sources.map(
      ({ id, channels }): Patched => ({
        kind: "source",
        id,
        name: sourceCalled(setup, id),
        stereo: channels === 2,
        reversed: false,
        folded: false,
        slots: slotsOfSource(monitor, id),
      }),
    ),
  ].filter((thing) => thing.slots.length > 0);
};

/** What a flag is about: a thing and some of its slots, all of them where none are named. */
export const about = ({ kind, id, slots }: Patched, only: readonly number[] = slots) => ({
  slots: only,
  sources: kind === "source" ? [id] : [],
  sums: kind === "sum" ? [id] : [],
});

/** Index of the slot by which a side arrives: the first that is on, else the first that takes it; −1 without one. */
export const firstOfSide = (setup: Setup, thing: Patched, side: Side | "both"): number => {
  const takes = thing.slots.filter((i) => sideOf(setup.monitor.slots[i] as Slot) === side);
  return takes.find((i) => setup.monitor.slots[i]?.on) ?? takes[0] ?? -1;
};

/**
 * Slots that bring nothing new, by index, each with the one it repeats: the same side again (the one that is on
 * stays), a source of two channels once more as mono, or the other leg of a folded sum.
 */
export const repeatsOf = (
  setup: Setup,
  thing: Patched,
): { readonly index: number; readonly of: number }[] => {
  const slotAt = (i: number): Slot => setup.monitor.slots[i] as Slot;
  const order = [...thing.slots].sort((a, b) => Number(slotAt(b).on) - Number(slotAt(a).on));
  const apart = (["left", "right"] as const).map((side) => firstOfSide(setup, thing, side));
  // One that is on repeats only what is on as well: else nobody would hear it any more.
  const mixed = (on: boolean): boolean => apart.every((i) => i >= 0 && (slotAt(i).on || !on));
  const first = new Map<string, number>();
  const repeats: { index: number; of: number }[] = [];
  for (const index of order) {
    const side = sideOf(slotAt(index));
    const key = thing.folded ? "both" : side;
    const was =
      first.get(key) ?? (side === "both" && mixed(slotAt(index).on) ? (apart[0] as number) : undefined);
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
  const right = firstOfSide(setup, thing, "right");
  return right >= 0 && firstOfSide(setup, thing, "left") === right + 1;
};
