import { gainOf, levelOf } from "../level/decibels";
import { directOutGain } from "../mix/taps";
import { inputsOfChannel } from "../model/inputs";
import type { Id, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { type Ceiling, ceilingsOf, inputCeiling, limitingStageOf } from "./ceilings";

/** The headroom of one channel’s direct out: its own output, and the loudest of the monitor inputs it feeds. */
export interface DirectOutFigures {
  readonly channel: Id;
  /** Peak at the output, dBFS; null where the channel’s peak is not entered. */
  readonly peak: Db | null;
  readonly ceilings: readonly Ceiling[];
  readonly lowest: Ceiling;
}

/** Every direct out that a monitor input takes, in the order of the channels. */
export const directOutFigures = (setup: Setup): DirectOutFigures[] =>
  setup.channels.flatMap((channel) => {
    const fed = inputsOfChannel(setup.monitor, channel.id);
    if (fed.length === 0) return [];
    const known = channel.peak !== null;
    const peak = known
      ? levelOf(gainOf(channel.peak ?? 0) * directOutGain(setup.desk, channel))
      : Number.NEGATIVE_INFINITY;
    const trims = setup.monitor.trimBeforeInput ? fed.map((i) => setup.monitor.inputs[i]?.trim ?? 0) : [0];
    const input = inputCeiling(setup) - Math.max(...trims);
    const ceilings = ceilingsOf(
      [
        { place: "output", at: [0, 0] },
        { place: "input", at: [input, input] },
      ],
      [peak, peak],
      setup.preferences.targetHeadroom,
      known,
    );
    return [{ channel: channel.id, peak: known ? peak : null, ceilings, lowest: limitingStageOf(ceilings) }];
  });

/** Direct outs by their headroom, the least first; those of which no peak is known behind. */
export const worstFirst = (all: readonly DirectOutFigures[]): DirectOutFigures[] =>
  [...all].sort(
    (a, b) =>
      Number(a.peak === null) - Number(b.peak === null) ||
      // Two that are silent both have no end of headroom, and no difference.
      (a.lowest.headroom === b.lowest.headroom ? 0 : a.lowest.headroom - b.lowest.headroom),
  );
