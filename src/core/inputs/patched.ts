import { isSwapped } from "../mix/pair-order";
import { isInputOn } from "../mix/taps";
import { inputsOfAll } from "../model/inputs";
import type { Id, MonitorInput, Setup } from "../model/setup";
import type { Side } from "../model/units";

/** A channel or bus with the inputs it has. */
export interface PatchedThing {
  readonly kind: "channel" | "bus";
  readonly id: Id;
  /** It has two sides: a channel of two channels, or a pair. */
  readonly stereo: boolean;
  /** A pair that is meant to lie in reverse order; how it lies is `sidesSwapped`. */
  readonly swapped: boolean;
  /** A bus that is folded to mono: its sides carry the same. */
  readonly folded: boolean;
  /** Indexes of all its inputs, in order; at least one. */
  readonly inputs: readonly number[];
}

/** Which side of its source or sum an input carries. */
export const sideOf = (input: Pick<MonitorInput, "feed">): Side | "both" => input.feed.side;

/** Everything that has an input: the buses, then the channels, in the setup's order. */
export const patchedThings = (setup: Setup): PatchedThing[] => {
  const inputs = inputsOfAll(setup.monitor);
  return [
    ...setup.buses.map(
      (bus): PatchedThing => ({
        kind: "bus",
        id: bus.id,
        stereo: bus.stereo,
        swapped: bus.swapped,
        folded: bus.folded,
        inputs: inputs.bus.get(bus.id) ?? [],
      }),
    ),
    ...setup.channels.map(
      ({ id, lines }): PatchedThing => ({
        kind: "channel",
        id,
        stereo: lines === 2,
        swapped: false,
        folded: false,
        inputs: inputs.channel.get(id) ?? [],
      }),
    ),
  ].filter((thing) => thing.inputs.length > 0);
};

/** What an issue is about: a thing and some of its inputs, all of them where none are named. */
export const inputsAbout = ({ kind, id, inputs }: PatchedThing, only: readonly number[] = inputs) => ({
  inputs: only,
  channels: kind === "channel" ? [id] : [],
  buses: kind === "bus" ? [id] : [],
});

/** Index of the input by which a side arrives: the first that is on, else the first that takes it; −1 without one. */
export const firstOfSide = (setup: Setup, thing: PatchedThing, side: Side | "both"): number => {
  const takes = thing.inputs.filter((i) => sideOf(setup.monitor.inputs[i] as MonitorInput) === side);
  return takes.find((i) => isInputOn(setup, setup.monitor.inputs[i])) ?? takes[0] ?? -1;
};

/**
 * Inputs that bring nothing new, by index, each with the one it repeats: the same side again (the one that is on
 * stays), a channel of two channels once more as mono, or the other side of a folded sum.
 */
export const repeatsOf = (
  setup: Setup,
  thing: PatchedThing,
): { readonly index: number; readonly of: number }[] => {
  const inputAt = (i: number): MonitorInput => setup.monitor.inputs[i] as MonitorInput;
  const isOn = (i: number): boolean => isInputOn(setup, inputAt(i));
  const order = [...thing.inputs].sort((a, b) => Number(isOn(b)) - Number(isOn(a)));
  const apart = (["left", "right"] as const).map((side) => firstOfSide(setup, thing, side));
  // One that is on repeats only what is on as well: else nobody would hear it any more.
  const mixed = (on: boolean): boolean => apart.every((i) => i >= 0 && (isOn(i) || !on));
  const first = new Map<string, number>();
  const repeats: { index: number; of: number }[] = [];
  for (const index of order) {
    const side = sideOf(inputAt(index));
    const key = thing.folded ? "both" : side;
    const was = first.get(key) ?? (side === "both" && mixed(isOn(index)) ? (apart[0] as number) : undefined);
    if (was === undefined) first.set(key, index);
    else repeats.push({ index, of: was });
  }
  return repeats.sort((a, b) => a.index - b.index);
};

/** Whether the sides reach the listeners the other way round: the sides as patched or meant, the channels as they lie. */
export const sidesSwapped = (setup: Setup, thing: PatchedThing): boolean => {
  if (thing.kind === "bus") {
    const bus = setup.buses.find((s) => s.id === thing.id);
    return bus?.stereo === true && isSwapped(setup, bus);
  }
  const right = firstOfSide(setup, thing, "right");
  return right >= 0 && firstOfSide(setup, thing, "left") === right + 1;
};
