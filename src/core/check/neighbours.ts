import { gainOf } from "../level/decibels";
import { mixedChannelsOf, polarity } from "../mix/bus";
import { inputOfSide, isSwapped } from "../mix/pair-order";
import { directOutGain } from "../mix/taps";
import type { Bus, Channel, Feed, MonitorInput, Setup } from "../model/setup";
import { linesOf } from "../model/sides";
import type { Gain, Side, Sides } from "../model/units";
import type { PathChannel } from "./paths";

/** What lies in the inputs, and which input each ear takes as planned. */
interface Taken {
  readonly inputs: readonly (Pick<MonitorInput, "feed" | "trim"> | null)[];
  readonly ears: Sides<number>;
}

/** A bus that is not patched yet is thought of as lying between two empty inputs. */
const takenInputs = (setup: Setup, bus: Bus): Taken => {
  const left = inputOfSide(setup.monitor, bus, "left");
  const right = bus.stereo ? inputOfSide(setup.monitor, bus, "right") : left;
  const reversed = isSwapped(setup, bus);
  if (left >= 0 && right >= 0) {
    const inputs = setup.monitor.inputs.map((s) => (s?.on ? s : null));
    return { inputs, ears: reversed ? [right, left] : [left, right] };
  }
  const side = (side: Side) => ({ feed: { kind: "bus", bus: bus.id, side: side } as const, trim: 0 });
  if (!bus.stereo) return { inputs: [null, side("left"), null], ears: [1, 1] };
  const pair = reversed ? [side("right"), side("left")] : [side("left"), side("right")];
  return { inputs: [null, ...pair, null], ears: [1, 2] };
};

/** One channel of a channel as it lies in an input. */
interface Content {
  readonly channel: Channel;
  readonly line: number;
  readonly gain: Gain;
}

const contentOf = (setup: Setup, feed: Feed | null | undefined): Content[] => {
  if (feed?.kind === "bus") {
    const bus = setup.buses.find((s) => s.id === feed.bus);
    const side = feed.side === "left" ? 0 : 1;
    return (bus ? mixedChannelsOf(setup, bus) : []).flatMap(({ channel, gains }) =>
      gains.map((gains, line) => ({ channel, line, gain: gains[side] })),
    );
  }
  const channel = setup.channels.find((s) => s.id === feed?.channel);
  const gain = channel ? polarity(channel.inverted) * directOutGain(setup.desk, channel) : 0;
  if (!feed || !channel || gain === 0) return [];
  return linesOf(channel).flatMap((side, line) =>
    feed.side === "both" || side === "both" || feed.side === side ? [{ channel, line, gain }] : [],
  );
};

/**
 * What a listener's two inputs get when the inputs are taken one too far: each input gets what lies in the neighbouring
 * input, silence where that is free, off or past the end. Every line by itself.
 * @param by 1 is one input up, −1 one down
 */
export const neighbourChannels = (setup: Setup, bus: Bus, by: 1 | -1): PathChannel[] => {
  const { inputs, ears } = takenInputs(setup, bus);
  // The same channel in both ears is one signal: only then can its polarity be compared.
  const rows = new Map<string, { readonly channel: Channel; readonly row: [left: Gain, right: Gain] }>();
  ears.forEach((at, ear) => {
    const input = inputs[at + by];
    const through = gainOf(input?.trim ?? 0);
    for (const { channel, line, gain } of contentOf(setup, input?.feed)) {
      const key = `${line} ${channel.id}`;
      const its = rows.get(key) ?? { channel, row: [0, 0] };
      its.row[ear] = gain * through;
      rows.set(key, its);
    }
  });
  return [...rows.values()].map(({ channel, row }) => ({ channel, gains: [row] }));
};
