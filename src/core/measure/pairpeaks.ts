import type { Gain, Legs } from "../units";
import { OVERSHOOT, peakBetween, REACH } from "./interpolate";

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
  /** The mixed samples of one stretch. */
  readonly samples: Float64Array;
}

/** Peaks of both legs and of their plain sum. */
export interface PairPeaks {
  readonly left: MixPeak;
  readonly right: MixPeak;
  readonly mono: MixPeak;
}

/**
 * A pair before the first sample.
 * @param gains of each track into the left and right leg
 * @param longest samples of the longest stretch that will come
 */
export const newPairPeaks = (gains: readonly Legs[], longest: number): PairPeaks => {
  const mix = (gain: (legs: Legs) => Gain): MixPeak => ({
    gains: gains.map(gain),
    peak: 0,
    peakAt: 0,
    truePeak: 0,
    parts: new Float64Array(gains.length),
    samples: new Float64Array(2 * REACH + longest),
  });
  return { left: mix(([l]) => l), right: mix(([, r]) => r), mono: mix(([l, r]) => l + r) };
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

/** Mixes x[from…to) of all tracks to the beginning of the samples of every mix. */
const mixStretch = (pair: PairPeaks, rows: readonly Float64Array[], from: number, to: number): void => {
  const left = pair.left.samples;
  const right = pair.right.samples;
  const mono = pair.mono.samples;
  const length = to - from;
  left.fill(0, 0, length);
  right.fill(0, 0, length);
  for (let t = 0; t < rows.length; t += 1) {
    const row = rows[t] as Float64Array;
    const l = pair.left.gains[t] as Gain;
    const r = pair.right.gains[t] as Gain;
    if (l === 0 && r === 0) continue;
    for (let at = 0; at < length; at += 1) {
      const sample = row[from + at] as number;
      left[at] = (left[at] as number) + l * sample;
      right[at] = (right[at] as number) + r * sample;
    }
  }
  for (let at = 0; at < length; at += 1) mono[at] = (left[at] as number) + (right[at] as number);
};

/** Takes mixed samples into the peaks of their mix; the first 2·REACH have passed before. */
const takeMix = (
  mix: MixPeak,
  rows: readonly Float64Array[],
  from: number,
  length: number,
  frame: number,
): void => {
  const { samples } = mix;
  const before = 2 * REACH;
  let top = mix.peak;
  let at = -1;
  for (let i = before; i < before + length; i += 1) {
    const size = Math.abs(samples[i] as number);
    if (size <= top) continue;
    top = size;
    at = i - before;
  }
  if (at >= 0) {
    mix.peak = top;
    mix.peakAt = frame + at;
    for (let t = 0; t < rows.length; t += 1)
      mix.parts[t] = (mix.gains[t] as Gain) * ((rows[t] as Float64Array)[from + at] as number);
  }
  mix.truePeak = peakBetween(samples, REACH, REACH + length, Math.max(mix.truePeak, top));
};

/**
 * Takes x[from…to) of all tracks into the peaks of the mixes. Nothing is mixed where no mix can rise beyond its
 * peaks so far; the result is the same. Places between samples are looked at REACH samples late, so 2·REACH
 * samples before `from` must exist.
 * @param tops largest absolute sample of each track over the stretch and the 2·REACH samples before it
 * @param frame index of x[from] from the beginning
 */
export const takeStretch = (
  pair: PairPeaks,
  rows: readonly Float64Array[],
  tops: ArrayLike<number>,
  from: number,
  to: number,
  frame: number,
): void => {
  const rising = [pair.left, pair.right, pair.mono].filter((mix) => canRise(mix, tops));
  if (rising.length === 0) return;
  mixStretch(pair, rows, from - 2 * REACH, to);
  for (const mix of rising) takeMix(mix, rows, from, to - from, frame);
};
