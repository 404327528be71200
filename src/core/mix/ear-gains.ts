import { hearsFoh } from "../model/kinds";
import type { Bus, Channel, Id, Listener, Setup } from "../model/setup";
import { type ChannelGains, channelGains, foldedGains, scaledGains, swappedGains } from "../pan/stereo";
import type { EarPath } from "../stereo/placement";
import { type MixedChannel, mixedChannelsOf, polarity } from "./bus";
import { inputGains, isSwapped } from "./pair-order";
import { fohGain } from "./taps";

/** One channel with what a feed or a pair of ears gets of it. */
export interface HeardChannel extends EarPath {
  readonly channel: Channel;
  /** Signed gain of each channel into left and right. */
  readonly gains: ChannelGains;
}

/** What FOH gets: every channel that is neither muted nor pulled down, by its fader and pan. */
export const heardInFoh = (setup: Setup): HeardChannel[] =>
  setup.channels
    .filter((channel) => fohGain(channel) > 0)
    .map((channel) => {
      const gain = polarity(channel.inverted) * fohGain(channel);
      const gains = scaledGains(channelGains(setup.desk, channel, channel.pan), [gain, gain]);
      return { channel, gains, turned: false, collapsed: false };
    });

/**
 * What a bus brings to the ears: by the order in which it is patched, and the trims and switches of its inputs.
 * @param parts what sounds in it, where that is known already
 */
export const heardInBus = (
  setup: Setup,
  bus: Bus,
  parts: readonly MixedChannel[] = mixedChannelsOf(setup, bus),
): HeardChannel[] => {
  const turned = isSwapped(setup, bus);
  const collapsed = !bus.stereo || bus.folded;
  const inputs = inputGains(setup.monitor, bus);
  return parts.map(({ channel, gains }) => {
    const patched = scaledGains(gains, inputs);
    return { channel, gains: turned ? swappedGains(patched) : patched, turned, collapsed };
  });
};

/** The bus a listener hears, if there is one. */
export const busOf = (setup: Setup, listener: Listener): Bus | undefined =>
  setup.buses.find((s) => s.id === listener.bus);

/** The listener's own mixer: flipped, or both sides into one. */
export const throughMixer = (
  heard: HeardChannel,
  listener: Pick<Listener, "flipped" | "mono">,
): HeardChannel => {
  if (listener.mono) return { ...heard, gains: foldedGains(heard.gains), collapsed: true };
  if (!listener.flipped) return heard;
  return { ...heard, gains: swappedGains(heard.gains), turned: !heard.turned };
};

/** What reaches the listener's own mixer. */
const feedOf = (setup: Setup, listener: Listener): HeardChannel[] => {
  if (hearsFoh(listener)) return heardInFoh(setup);
  const bus = busOf(setup, listener);
  return bus ? heardInBus(setup, bus) : [];
};

/**
 * Signed gain of each channel of each channel into the left and right ear of a listener (for the audience: left and
 * right of FOH), as it takes to play recorded tracks; what the listener does not get is not in it.
 * The sides of the listener's image are these, the channels of a channel taken as uncorrelated.
 */
export const earGains = (setup: Setup, listener: Listener): ReadonlyMap<Id, ChannelGains> =>
  new Map(feedOf(setup, listener).map((h) => [h.channel.id, throughMixer(h, listener).gains]));
