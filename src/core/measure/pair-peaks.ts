import type { Gain, Outlet, Sides } from "../model/units";
import { GAIN_INTO } from "../pan/stereo";
import type { Loops } from "./loops";
import { OVERSHOOT, REACH, truePeakFinder } from "./truepeak";

/** Peaks of one mix of the tracks, found while the samples pass. */
export interface MixPeak {
  /** Signed gain of each track. */
  readonly gains: readonly Gain[];
  /** Largest absolute sample so far. */
  peak: number;
  /** Index of that sample from the beginning. */
  peakAt: number;
  /** Largest absolute value at and between the samples so far. */
  truePeak: number;
  /** What each track put into the sample at `peakAt`, signed. */
  readonly parts: Float64Array;
}

/** Peaks of both sides and of their plain sum. */
export interface PairPeaks {
  readonly left: MixPeak;
  readonly right: MixPeak;
  readonly mono: MixPeak;
}

/**
 * A pair before the first sample.
 * @param gains of each track into the left and right side
 */
export const newPairPeaks = (gains: readonly Sides[]): PairPeaks => {
  const mix = (outlet: Outlet): MixPeak => ({
    gains: gains.map(GAIN_INTO[outlet]),
    peak: 0,
    peakAt: 0,
    truePeak: 0,
    parts: new Float64Array(gains.length),
  });
  return { left: mix("left"), right: mix("right"), mono: mix("mono") };
};

/**
 * Whether the largest samples of the tracks, all at once, could lead beyond the peaks so far. The true peak is at most
 * OVERSHOOT times the sample peak, so what can lead beyond the sample peak passes this one test too.
 */
const canRise = (mix: MixPeak, tops: ArrayLike<number>): boolean => {
  let bound = 0;
  for (let t = 0; t < tops.length; t += 1) bound += Math.abs(mix.gains[t] as Gain) * (tops[t] as number);
  return bound * OVERSHOOT > mix.truePeak;
};

/**
 * Makes what takes x[from…to) of all tracks into the peaks of the mixes. Nothing is mixed where a mix cannot rise
 * beyond its peaks so far; the result is the same. Places between samples are looked at REACH samples late, so
 * 2·REACH samples before `from` must exist.
 * @param longest samples of the longest stretch that will come
 * @param tops largest absolute sample of each track over the stretch and the 2·REACH samples before it
 * @param frame index of x[from] from the beginning
 */
export const pairTaker = (loops: Loops, pair: PairPeaks, rows: readonly Float64Array[], longest: number) => {
  const before = 2 * REACH;
  const samples = loops.numbers(before + longest);
  const found = loops.numbers(2);
  const peakBetween = truePeakFinder(loops, longest);

  const mixStretch = ({ gains }: MixPeak, from: number, to: number): void => {
    samples.fill(0, 0, to - from);
    rows.forEach((row, t) => {
      if (gains[t] !== 0) loops.add(samples, row, gains[t] as Gain, from, to);
    });
  };

  const takeMix = (mix: MixPeak, from: number, length: number, frame: number): void => {
    loops.scan(found, samples, before, before + length);
    const top = found[1] as number;
    if (top > mix.peak) {
      const at = samples.findIndex((sample, i) => i >= before && Math.abs(sample) === top) - before;
      mix.peak = top;
      mix.peakAt = frame + at;
      rows.forEach((row, t) => {
        mix.parts[t] = (mix.gains[t] as Gain) * (row[from + at] as number);
      });
    }
    mix.truePeak = peakBetween(samples, REACH, REACH + length, Math.max(mix.truePeak, top));
  };

  return (tops: ArrayLike<number>, from: number, to: number, frame: number): void => {
    for (const mix of [pair.left, pair.right, pair.mono]) {
      if (!canRise(mix, tops)) continue;
      mixStretch(mix, from - before, to);
      takeMix(mix, from, to - from, frame);
    }
  };
};
