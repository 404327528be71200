import { directOutGain, faderGain, sendGain } from "../mix/taps";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import type { Id, Setup } from "../model/setup";

/** One way by which a channel arrives at the monitor system, or would if a switch were on. */
export interface Arrival {
  /** The bus that brings it; null for its direct out. */
  readonly bus: Id | null;
  /** Indexes of the inputs, one, or two for left and right. */
  readonly inputs: readonly number[];
  /** The plan lets it through. */
  readonly isOn: boolean;
}

/** Inputs by the copy that they belong to: the second input of the same side is a second copy. */
const copiesOf = ({ monitor }: Setup, inputs: readonly number[]): number[][] => {
  const copies: number[][] = [];
  const counted = new Map<string, number>();
  for (const index of inputs) {
    const side = monitor.inputs[index]?.feed.side ?? "";
    const copy = counted.get(side) ?? 0;
    counted.set(side, copy + 1);
    copies[copy] = [...(copies[copy] ?? []), index];
  }
  return copies;
};

/**
 * Every way by which a channel arrives, or would arrive if its send to a monitored bus were left on by mistake: more
 * than one that is on makes it too loud, and phasey where one is delayed by processing.
 */
export const arrivalsOf = (setup: Setup, id: Id): Arrival[] => {
  const channel = setup.channels.find((c) => c.id === id);
  if (!channel) return [];
  const isHeard = (inputs: readonly number[]): boolean =>
    inputs.some((i) => setup.monitor.inputs[i]?.on && i < setup.monitor.inputCount);
  const arrive = (bus: Id | null, inputs: readonly number[], passes: boolean): Arrival[] =>
    copiesOf(setup, inputs).map((copy) => ({ bus, inputs: copy, isOn: passes && isHeard(copy) }));
  return [
    ...arrive(null, inputsOfChannel(setup.monitor, id), directOutGain(setup.desk, channel) > 0),
    ...setup.buses.flatMap((bus) => {
      const send = bus.sends.find((s) => s.channel === id);
      const passes =
        send !== undefined && sendGain(setup.desk, channel, send) > 0 && faderGain(bus.fader) > 0;
      return arrive(bus.id, inputsOfBus(setup.monitor, bus.id), passes);
    }),
  ];
};
