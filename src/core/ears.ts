import type { Way } from "./agreement";
import { type ChannelGains, channelGains, foldedGains, scaledGains, swappedGains } from "./channels";
import { partsOf, polarity } from "./mix";
import { isReversed, slotGains } from "./patched";
import type { Id, Listener, Setup, Source, Sum } from "./setup";

/** One source with what a feed or a pair of ears gets of it. */
export interface Heard extends Way {
  readonly source: Source;
  /** Signed gain of each channel into left and right. */
  readonly channels: ChannelGains;
}

/** What the house gets: every source that is not muted, by its house pan. */
export const heardInHouse = (setup: Setup): Heard[] =>
  setup.sources
    .filter((s) => !s.muted)
    .map((source) => {
      const sign = polarity(source.inverted);
      const channels = scaledGains(channelGains(setup.console, source, source.pan), [sign, sign]);
      return { source, channels, turned: false, collapsed: false };
    });

/** What a sum brings to the ears: by the order in which it is patched, and the trims and switches of its slots. */
export const heardInSum = (setup: Setup, sum: Sum): Heard[] => {
  const turned = isReversed(setup, sum);
  const collapsed = !sum.stereo || sum.folded;
  const slots = slotGains(setup.monitor, sum);
  return partsOf(setup, sum).map(({ source, channels }) => {
    const patched = scaledGains(channels, slots);
    return { source, channels: turned ? swappedGains(patched) : patched, turned, collapsed };
  });
};

/** The sum a listener hears, if there is one. */
export const sumOf = (setup: Setup, listener: Listener): Sum | undefined =>
  setup.sums.find((s) => s.id === listener.sum);

/** The listener's own mixer: flipped, or both legs into one. */
export const throughMixer = (heard: Heard, listener: Pick<Listener, "flipped" | "mono">): Heard => {
  if (listener.mono) return { ...heard, channels: foldedGains(heard.channels), collapsed: true };
  if (!listener.flipped) return heard;
  return { ...heard, channels: swappedGains(heard.channels), turned: !heard.turned };
};

/** What reaches the listener's own mixer. */
const feedOf = (setup: Setup, listener: Listener): Heard[] => {
  if (listener.kind === "audience") return heardInHouse(setup);
  const sum = sumOf(setup, listener);
  return sum ? heardInSum(setup, sum) : [];
};

/**
 * Signed gain of each channel of each source into the left and right ear of a listener (for the audience: left and
 * right of the house), as it takes to play recorded tracks; what the listener does not get is not in it.
 * The legs of the listener's image are these, the channels of a source taken as uncorrelated.
 */
export const earGains = (setup: Setup, listener: Listener): ReadonlyMap<Id, ChannelGains> =>
  new Map(feedOf(setup, listener).map((h) => [h.source.id, throughMixer(h, listener).channels]));
