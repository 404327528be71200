import type { Gain } from "../units";
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
  readonly mix: Float64Array;
}

/**
 * A mix before the first sample.
 * @param longest samples of the longest stretch that will come
 */
export const newMixPeak = (gains: readonly Gain[], longest: number): MixPeak => ({
  gains,
  peak: 0,
  peakAt: 0,
  truePeak: 0,
  parts: new Float64Array(gains.length),
  mix: new Float64Array(2 * REACH + longest),
});

/** Mixes x[from…to) of all tracks to the beginning of `state.mix`. */
const mixInto = (state: MixPeak, rows: readonly Float64Array[], from: number, to: number): void => {
  const { mix, gains } = state;
  mix.fill(0, 0, to - from);
  for (let t = 0; t < rows.length; t += 1) {
    const gain = gains[t] as Gain;
    if (gain === 0) continue;
    const row = rows[t] as Float64Array;
    for (let i = from, at = 0; i < to; i += 1, at += 1) mix[at] = (mix[at] as number) + gain * (row[i] as number);
  }
};

/**
 * Takes x[from…to) of all tracks into the peaks of a mix. Nothing is mixed where the largest samples of the tracks,
 * all at once, could not lead beyond the peaks so far; the result is the same.
 * Places between samples are looked at REACH samples late, so 2·REACH samples before `from` must exist.
 * @param tops largest absolute sample of each track over the stretch and the 2·REACH samples before it
 * @param frame index of x[from] from the beginning
 */
export const takeStretch = (
  state: MixPeak,
  rows: readonly Float64Array[],
  tops: ArrayLike<number>,
  from: number,
  to: number,
  frame: number,
): void => {
  let bound = 0;
  for (let t = 0; t < rows.length; t += 1) bound += Math.abs(state.gains[t] as Gain) * (tops[t] as number);
  if (bound <= state.peak && bound * OVERSHOOT <= state.truePeak) return;
  const before = 2 * REACH;
  mixInto(state, rows, from - before, to);
  const length = to - from + before;
  const { mix } = state;
  let top = state.peak;
  let at = -1;
  for (let i = before; i < length; i += 1) {
    const size = Math.abs(mix[i] as number);
    if (size <= top) continue;
    top = size;
    at = i - before;
  }
  if (at >= 0) {
    state.peak = top;
    state.peakAt = frame + at;
    for (let t = 0; t < rows.length; t += 1)
      state.parts[t] = (state.gains[t] as Gain) * ((rows[t] as Float64Array)[from + at] as number);
  }
  state.truePeak = peakBetween(mix, REACH, length - REACH, Math.max(state.truePeak, top));
};
