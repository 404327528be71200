import { gainOf } from "../level/decibels";
import type { MixedChannel } from "../mix/bus";
import type { Channel } from "../model/setup";
import type { Gain, Outlet } from "../model/units";
import { GAIN_INTO } from "../pan/stereo";

/** How strong a channel is before its send, as amplitudes re full scale; null where nobody knows. */
export interface ChannelLevels {
  /** In the console's rms convention: what is summed from it is in the same one. */
  readonly rms: Gain | null;
  readonly peak: Gain | null;
  /** Share of the time in which it plays, 0…1. */
  readonly activity: number;
}

/** What of one channel arrives at one outlet, as amplitudes re full scale. */
export interface Contribution {
  readonly part: MixedChannel;
  /** All channels together as uncorrelated signals; null where the level is not known. */
  readonly rms: Gain | null;
  /** All channels at their peaks at once, so never under the truth; null where the peak is not known. */
  readonly peak: Gain | null;
  /** Share of the time in which it plays, 0…1. */
  readonly activity: number;
  /** 1 where it arrives as it is, −1 with its polarity switched; between them where its channels differ in that. */
  readonly polarity: number;
}

const known = (level: number | null): Gain | null => (level === null ? null : gainOf(level));

/** Level and peak of a channel as amplitudes, with its activity. */
export const channelLevelsOf = (channel: Channel, activity: number): ChannelLevels => ({
  activity,
  rms: known(channel.gatedRms),
  peak: known(channel.peak),
});

/**
 * What arrives of every part at one outlet. The mono fold is made channel by channel from the signed gains,
 * never from the levels of the two sides.
 * @param strengths in the order of the parts
 */
export const contributionsAt = (
  parts: readonly MixedChannel[],
  strengths: readonly ChannelLevels[],
  outlet: Outlet,
): Contribution[] => {
  const into = GAIN_INTO[outlet];
  return parts.map((part, i) => {
    let sum = 0;
    let magnitudes = 0;
    let squares = 0;
    for (const channel of part.gains) {
      const gain = into(channel);
      sum += gain;
      magnitudes += Math.abs(gain);
      squares += gain * gain;
    }
    const { rms, peak, activity } = strengths[i] as ChannelLevels;
    return {
      part,
      rms: rms === null ? null : rms * Math.sqrt(squares),
      peak: peak === null ? null : peak * magnitudes,
      activity,
      polarity: magnitudes === 0 ? 1 : sum / magnitudes,
    };
  });
};
