import { isInputOn, sendGain } from "../mix/taps";
import { inputsOfAll, inputsOfBus } from "../model/inputs";
import type { Bus, Id, MonitorSystem, Send, Setup } from "../model/setup";
import { sidesOf } from "../model/sides";
import type { Side } from "../model/units";

/** How the inputs are used. Indexes count from 0. */
export interface Usage {
  /** Inputs that take something, in order. */
  readonly used: readonly number[];
  /** Inputs that take something beyond the count: kept and shown, never dropped. */
  readonly over: readonly number[];
  /** Free inputs within the count, in order: the first is the next to be filled. */
  readonly free: readonly number[];
  /** How many inputs must be freed until everything has room; 0 when it has. */
  readonly tooMany: number;
  /** Channels that have no input of their own, in the setup's order. */
  readonly channelsWithout: readonly Id[];
  /** Sides that have no input, in the setup's order; a mono bus has its left one only. */
  readonly sidesWithout: readonly { readonly bus: Id; readonly side: Side }[];
}

/** Whether any of the inputs is switched on, with the direct out that feeds it. */
export const anyOn = (setup: Pick<Setup, "channels" | "monitor">, inputs: readonly number[]): boolean =>
  inputs.some((i) => isInputOn(setup, setup.monitor.inputs[i]));

/** Sums that reach the listeners: at least one side in an input that is on. */
export const busesFed = (setup: Setup): Bus[] =>
  setup.buses.filter((bus) => anyOn(setup, inputsOfBus(setup.monitor, bus.id)));

/** Says of a send whether it passes anything: what `mixedChannelsOf` finds, without its gains. */
export const passingIn = ({
  channels,
  desk,
}: Pick<Setup, "channels" | "desk">): ((send: Send) => boolean) => {
  const byId = new Map(channels.map((channel) => [channel.id, channel]));
  return (send) => {
    const channel = byId.get(send.channel);
    return channel !== undefined && sendGain(desk, channel, send) !== 0;
  };
};

/** Channels that sound in a bus which reaches the listeners. */
export const channelsInBuses = (setup: Setup): ReadonlySet<Id> => {
  const passes = passingIn(setup);
  const found = new Set<Id>();
  for (const { sends } of busesFed(setup))
    for (const send of sends) if (!found.has(send.channel) && passes(send)) found.add(send.channel);
  return found;
};

/**
 * The first free inputs within the count that are neighbours.
 * @param count how many
 * @returns their indexes; null when there is no such place
 */
export const firstFree = (monitor: MonitorSystem, count: number): readonly number[] | null => {
  for (let start = 0; start + count <= monitor.inputCount; start += 1) {
    const run = Array.from({ length: count }, (_, i) => start + i);
    if (run.every((i) => !monitor.inputs[i])) return run;
  }
  return null;
};

/** Indexes of the inputs that take something, in order. */
const usedInputs = ({ inputs }: MonitorSystem): number[] => inputs.flatMap((input, i) => (input ? [i] : []));

/** How many inputs are left for something new: what lies beyond the count wants one before. */
export const inputsLeft = (monitor: MonitorSystem): number =>
  Math.max(0, monitor.inputCount - usedInputs(monitor).length);

/** How the inputs are used, what is over the count and what has no input. */
export const usageOf = (setup: Setup): Usage => {
  const { monitor } = setup;
  const used = usedInputs(monitor);
  const { channel: channels } = inputsOfAll(monitor);
  const free = Array.from({ length: monitor.inputCount }, (_, i) => i).filter((i) => !monitor.inputs[i]);
  const sides = setup.buses.flatMap((bus) => sidesOf(bus).map((side) => ({ bus: bus.id, side })));
  return {
    used,
    over: used.filter((i) => i >= monitor.inputCount),
    free,
    tooMany: Math.max(0, used.length - monitor.inputCount),
    channelsWithout: setup.channels.map((s) => s.id).filter((id) => !channels.has(id)),
    sidesWithout: sides.filter(({ bus, side }) => inputsOfBus(monitor, bus, side).length === 0),
  };
};
