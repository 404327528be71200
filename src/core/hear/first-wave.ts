import { levelOfPower } from "../level/decibels";
import type { Db, Hertz, Seconds, Sides } from "../model/units";
import { levelDifference } from "../stereo/position";

/**
 * The first wave of a hit: what arrives at the drum's own microphone before any other microphone has it. It alone comes
 * by one channel only, so its level difference is that channel's pan, whatever else picks the drum up later.
 */
export interface FirstWave {
  /** Level of each side over it, noise taken off, dBFS rms; −∞ for a side with nothing above the noise. */
  readonly levels: Sides<Db>;
  /** Right over left, dB: ±∞ with one side silent. */
  readonly difference: Db;
  /** Power of the noise on each side, as a share of the power of both. */
  readonly under: number;
  /** Standard error of the difference by the noise, dB; ∞ with a silent side. */
  readonly error: Db;
}

/** How long it is: what is 25 cm away comes 0.7 ms later. */
export const FIRST_WAVE: Seconds = 0.0007;
/** Hops that are kept as samples, and how many before and behind the finding of a hit its first wave is looked for. */
const KEPT_HOPS = 32;
const LOOK_BACK = 9;
/** Hops behind the finding at which all of it has passed. */
export const FIRST_WAVE_DONE = 3;
/** Hops over which the noise before it is measured. */
const QUIET_HOPS = 12;
/** A hit has begun with a sample so many times the rms of the noise. Of normal noise one sample in two million is. */
const BEGUN = 5;
/** Rms of the noise is never less (−110 dBFS). */
const LEAST_NOISE = 10 ** (-110 / 20);

/**
 * Keeps the last samples of a pair and measures first waves in them.
 * @param length samples of a hop
 */
export const firstWaves = (sampleRate: Hertz, length: number) => {
  const size = KEPT_HOPS * length;
  const kept = [new Float64Array(size), new Float64Array(size)] as const;
  const at = (side: 0 | 1, index: number): number => kept[side][index % size] as number;

  const power = (side: 0 | 1, from: number, to: number): number => {
    let sum = 0;
    for (let i = from; i < to; i += 1) sum += at(side, i) ** 2;
    return sum / (to - from);
  };

  return {
    /** Keeps a hop. */
    take: (hop: number, rows: Sides<Float64Array>): void => {
      rows.forEach((row, side) => {
        kept[side as 0 | 1].set(row, (hop % KEPT_HOPS) * length);
      });
    },
    /**
     * Measures the first wave of a hit that was found in a hop, `FIRST_WAVE_DONE` hops later.
     * @returns null where it does not rise out of the noise
     */
    of: (hop: number): FirstWave | null => {
      const from = (hop - LOOK_BACK) * length;
      const quiet = [0, 1].map((side) =>
        Math.max(LEAST_NOISE ** 2, power(side as 0 | 1, from - QUIET_HOPS * length, from)),
      ) as [number, number];
      const [l, r] = quiet.map((noise) => BEGUN * Math.sqrt(noise)) as [number, number];
      const last = (hop + 1) * length;
      let begin = from;
      while (begin < last && Math.abs(at(0, begin)) < l && Math.abs(at(1, begin)) < r) begin += 1;
      if (begin === last) return null;
      const count = Math.round(FIRST_WAVE * sampleRate);
      const side = (which: 0 | 1) => {
        const above = power(which, begin, begin + count) - quiet[which];
        // By the noise's own fluctuation, and by what it adds to each sample of the wave.
        const error = Math.sqrt((2 * quiet[which] ** 2 + 4 * Math.max(0, above) * quiet[which]) / count);
        return { above: above > 2 * error ? above : 0, error };
      };
      const [left, right] = [side(0), side(1)];
      const all = left.above + right.above;
      if (all === 0) return null;
      const isSilent = left.above === 0 || right.above === 0;
      return {
        levels: [levelOfPower(left.above), levelOfPower(right.above)],
        difference: levelDifference([Math.sqrt(left.above), Math.sqrt(right.above)]),
        under: (quiet[0] + quiet[1]) / 2 / all,
        error: isSilent
          ? Number.POSITIVE_INFINITY
          : (10 / Math.LN10) * Math.hypot(left.error / left.above, right.error / right.above),
      };
    },
  };
};
