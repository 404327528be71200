import { type ChannelGains, channelGains } from "./channels";
import { sumOf } from "./image";
import { partsOf } from "./mix";
import { isReversed, slotGains } from "./patched";
import type { Id, Listener, Setup, Sum } from "./setup";
import type { Legs } from "./units";

type EarGains = ReadonlyMap<Id, ChannelGains>;

const through = (gains: EarGains, change: (legs: Legs) => Legs): EarGains =>
  new Map([...gains].map(([id, channels]) => [id, channels.map(change)]));

const inHouse = (setup: Setup): EarGains =>
  new Map(
    setup.sources
      .filter((s) => !s.muted)
      .map((s) => {
        const sign = s.inverted ? -1 : 1;
        return [s.id, channelGains(setup.console, s, s.pan).map(([l, r]): Legs => [sign * l, sign * r])];
      }),
  );

const inSum = (setup: Setup, sum: Sum): EarGains => {
  const [left, right] = slotGains(setup.monitor, sum);
  const turned = isReversed(setup, sum);
  const parts = new Map(partsOf(setup, sum).map((p) => [p.source.id, p.channels]));
  return through(parts, ([l, r]) => (turned ? [r * right, l * left] : [l * left, r * right]));
};

/** What reaches the listener's own mixer. */
const feedOf = (setup: Setup, listener: Listener): EarGains => {
  if (listener.kind === "audience") return inHouse(setup);
  const sum = sumOf(setup, listener);
  return sum ? inSum(setup, sum) : new Map();
};

/**
 * Signed gain of each channel of each source into the left and right ear of a listener (for the audience: left and
 * right of the house), as it takes to play recorded tracks; what the listener does not get is not in it.
 * The legs of the listener's image are these, taken as uncorrelated.
 */
export const earGains = (setup: Setup, listener: Listener): EarGains => {
  const heard = feedOf(setup, listener);
  if (listener.mono) return through(heard, ([l, r]) => [l + r, l + r]);
  return listener.flipped ? through(heard, ([l, r]) => [r, l]) : heard;
};
