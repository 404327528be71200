import { type ChannelGains, channelGains, energyLegs, foldedGains, scaledGains } from "./channels";
import { gainOf } from "./decibels";
import type { Console, Id, Send, Setup, Source, Sum } from "./setup";
import type { Gain, Legs, Pan } from "./units";

/** One source in one sum, at the console's legs (before any reversed patch). */
export interface Part {
  readonly source: Source;
  readonly send: Send;
  /** Pan in force: the send's own, else the house pan. */
  readonly pan: Pan;
  /** Signed gain of each channel into each leg after send, pan, polarity, folding and trims. */
  readonly channels: ChannelGains;
  /** Gain of all channels together into each leg, as uncorrelated signals. */
  readonly legs: Legs;
}

/** Gain of a polarity switch: −1 where it is on. */
export const polarity = (inverted: boolean): Gain => (inverted ? -1 : 1);

/** Gains of each channel into the two legs before send and trims; a mono sum takes every channel at unity, whatever the pan. */
const placed = (console: Console, sum: Sum, source: Source, pan: Pan): ChannelGains => {
  if (!sum.stereo)
    return source.channels === 1
      ? [[1, 1]]
      : [
          [1, 1],
          [1, 1],
        ];
  const gains = channelGains(console, source, pan);
  return sum.folded ? foldedGains(gains) : gains;
};

/** Gain of each leg after the sum: trims and polarity. */
const legGains = (sum: Sum): Legs => {
  const leg = (at: 0 | 1): Gain => polarity(sum.legInverted[at]) * gainOf(sum.trim + sum.legTrim[at]);
  return [leg(0), leg(1)];
};

/**
 * What sounds in a sum: every send that is on, of a source that is not muted.
 * For a mono sum both legs of each part are the same; read the left one.
 */
export const partsOf = (setup: Setup, sum: Sum): Part[] => {
  const sources = new Map<Id, Source>(setup.sources.map((s) => [s.id, s]));
  const out = legGains(sum);
  const parts: Part[] = [];
  for (const send of sum.sends) {
    const source = sources.get(send.source);
    if (!source || source.muted || send.level === null) continue;
    const pan = send.pan ?? source.pan;
    const into = polarity(source.inverted) * gainOf(send.level);
    const channels = scaledGains(placed(setup.console, sum, source, pan), [into * out[0], into * out[1]]);
    parts.push({ source, send, pan, channels, legs: energyLegs(channels) });
  }
  return parts;
};
