import { gainOf } from "../level/decibels";
import type { Bus, Channel, Desk, Id, Send, Setup } from "../model/setup";
import type { Gain, Pan, Sides } from "../model/units";
import { type ChannelGains, channelGains, energySides, foldedGains, scaledGains } from "../pan/stereo";
import { faderGain, sendGain } from "./taps";

/** One channel in one bus, at the console's sides (before any reversed patch). */
export interface MixedChannel {
  readonly channel: Channel;
  readonly send: Send;
  /** Gain of the send with the fader as its tap has it, without pan and polarity. */
  readonly sent: Gain;
  /** Pan in force: the send's own, else the channel pan. */
  readonly pan: Pan;
  /** Signed gain of each channel into each side after send, pan, polarity, folding and trims. */
  readonly gains: ChannelGains;
  /** Gain of all channels together into each side, as uncorrelated signals. */
  readonly sides: Sides;
}

/** Gain of a polarity switch: −1 where it is on. */
export const polarity = (inverted: boolean): Gain => (inverted ? -1 : 1);

/** Gains of each channel into the two sides before send and trims; a mono bus takes every channel at unity, whatever the pan. */
const placed = (console: Desk, bus: Bus, channel: Channel, pan: Pan): ChannelGains => {
  if (!bus.stereo)
    return channel.lines === 1
      ? [[1, 1]]
      : [
          [1, 1],
          [1, 1],
        ];
  const gains = channelGains(console, channel, pan);
  return bus.folded ? foldedGains(gains) : gains;
};

/** Gain of each side after the bus: fader and trim, and on a stereo bus the side’s own trim and polarity. */
const sideGains = (bus: Bus): Sides => {
  const whole = faderGain(bus.fader) * gainOf(bus.trim);
  if (!bus.stereo) return [whole, whole];
  const side = (at: 0 | 1): Gain => polarity(bus.sideInverted[at]) * gainOf(bus.sideTrim[at]) * whole;
  return [side(0), side(1)];
};

/**
 * What sounds in a bus: every send that passes something, with the channel fader and mute as its tap has them.
 * For a mono bus both sides of each part are the same; read the left one.
 */
export const mixedChannelsOf = (setup: Setup, bus: Bus): MixedChannel[] => {
  const channels = new Map<Id, Channel>(setup.channels.map((s) => [s.id, s]));
  const out = sideGains(bus);
  const parts: MixedChannel[] = [];
  for (const send of bus.sends) {
    const channel = channels.get(send.channel);
    const sent = channel ? sendGain(setup.desk, channel, send) : 0;
    if (!channel || sent === 0) continue;
    const pan = send.pan ?? channel.pan;
    const into = polarity(channel.inverted) * sent;
    const gains = scaledGains(placed(setup.desk, bus, channel, pan), [into * out[0], into * out[1]]);
    parts.push({ channel, send, sent, pan, gains, sides: energySides(gains) });
  }
  return parts;
};
