import type { Gain, Legs } from "../units";
import type { MixName } from "./figures";
import { OVERSHOOT, peakBetween, REACH } from "./interpolate";
import { type MixPeak, newMixPeak, takeStretch } from "./mixpeak";
import { newScan, type Scan, scanStretch } from "./scan";

/** Samples kept before each step, for the filter between samples. */
export const BEFORE = 2 * REACH;
/** About this many samples share one look at whether they can matter for a peak. */
const GRAIN = 256;

/** All that is found sample by sample: peaks of every track and of the mixes, clipping, mean. */
export interface Peaks {
  readonly scans: readonly Scan[];
  /** Largest absolute value at and between the samples of each track. */
  readonly truePeaks: Float64Array;
  readonly mixes: { readonly [name in MixName]: MixPeak };
  /**
   * Takes `count` samples from index BEFORE on; the BEFORE samples in front are the last of the step before.
   * @param frame index of the first of them from the beginning
   */
  readonly take: (count: number, frame: number) => void;
  /** Takes the silence behind the end, so that the places after the last samples are looked at too. */
  readonly flush: (frame: number) => void;
}

/**
 * Peaks before the first sample.
 * @param rows samples of each track: BEFORE and one step
 * @param gains of each track into the left and right leg
 */
export const newPeaks = (rows: readonly Float64Array[], gains: readonly Legs[], step: number): Peaks => {
  const grain = Math.ceil(step / Math.ceil(step / GRAIN));
  const mixOf = (gain: (legs: Legs) => Gain): MixPeak => newMixPeak(gains.map(gain), grain);
  const mixes = { left: mixOf(([l]) => l), right: mixOf(([, r]) => r), mono: mixOf(([l, r]) => l + r) };
  const all = Object.values(mixes);
  const scans = rows.map(newScan);
  const truePeaks = new Float64Array(rows.length);
  /** Largest sample of each track: of the grain before, of this grain with the one before, of the step, of the step's end. */
  const before = new Float64Array(rows.length);
  const tops = new Float64Array(rows.length);
  const highest = new Float64Array(rows.length);
  const tails = new Float64Array(rows.length);

  const takeGrain = (from: number, to: number, frame: number): void => {
    rows.forEach((row, t) => {
      const top = scanStretch(scans[t] as Scan, row, from, to, frame);
      tops[t] = Math.max(top, before[t] as number);
      highest[t] = Math.max(top, highest[t] as number);
      // A grain shorter than the reach must not hide the one before it.
      before[t] = to - from < BEFORE ? (tops[t] as number) : top;
    });
    for (const mix of all) takeStretch(mix, rows, tops, from, to, frame);
  };

  return {
    scans,
    truePeaks,
    mixes,
    take: (count, frame) => {
      const end = BEFORE + count;
      highest.fill(0);
      for (let from = BEFORE; from < end; from += grain)
        takeGrain(from, Math.min(end, from + grain), frame + from - BEFORE);
      rows.forEach((row, t) => {
        const top = highest[t] as number;
        const best = truePeaks[t] as number;
        const near = Math.max(top, tails[t] as number);
        tails[t] = before[t] as number;
        if (near * OVERSHOOT > best) truePeaks[t] = peakBetween(row, REACH, end - REACH, Math.max(best, top));
      });
    },
    flush: (frame) => {
      for (const row of rows) row.fill(0, BEFORE, 2 * BEFORE);
      for (const mix of all) takeStretch(mix, rows, before, BEFORE, 2 * BEFORE, frame);
      rows.forEach((row, t) => {
        truePeaks[t] = peakBetween(row, REACH, 2 * BEFORE - REACH, truePeaks[t] as number);
      });
    },
  };
};
