import { GAIN_INTO } from "../channels";
import { gainOf } from "../decibels";
import type { Part } from "../mix";
import type { Source } from "../setup";
import type { Gain, Outlet } from "../units";

/** How strong a source is before its send, as amplitudes re full scale; null where nobody knows. */
export interface Strength {
  /** In the console's rms convention: what is summed from it is in the same one. */
  readonly rms: Gain | null;
  readonly peak: Gain | null;
}

/** What of one source arrives at one outlet, as amplitudes re full scale. */
export interface Arrival {
  readonly part: Part;
  /** All channels together as uncorrelated signals; null where the level is not known. */
  readonly rms: Gain | null;
  /** All channels at their peaks at once, so never under the truth; null where the peak is not known. */
  readonly peak: Gain | null;
  /** 1 where it arrives as it is, −1 with its polarity switched; between them where its channels differ in that. */
  readonly polarity: number;
}

const known = (level: number | null): Gain | null => (level === null ? null : gainOf(level));

/** Level and peak of a source as amplitudes. */
export const strengthOf = (source: Source): Strength => ({
  rms: known(source.level),
  peak: known(source.peak),
});

/**
 * What arrives of every part at one outlet. The mono fold is made channel by channel from the signed gains,
 * never from the levels of the two legs.
 * @param strengths in the order of the parts
 */
export const arrivalsAt = (
  parts: readonly Part[],
  strengths: readonly Strength[],
  outlet: Outlet,
): Arrival[] => {
  const into = GAIN_INTO[outlet];
  return parts.map((part, i) => {
    let sum = 0;
    let magnitudes = 0;
    let squares = 0;
    for (const channel of part.channels) {
      const gain = into(channel);
      sum += gain;
      magnitudes += Math.abs(gain);
      squares += gain * gain;
    }
    const { rms, peak } = strengths[i] as Strength;
    return {
      part,
      rms: rms === null ? null : rms * Math.sqrt(squares),
      peak: peak === null ? null : peak * magnitudes,
      polarity: magnitudes === 0 ? 1 : sum / magnitudes,
    };
  });
};
