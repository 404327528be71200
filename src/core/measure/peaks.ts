import type { Sides } from "../model/units";
import type { Loops } from "./loops";
import { newPairPeaks, type PairPeaks, pairTaker } from "./pair-peaks";
import { newScan, type Scan, scanner } from "./scan";
import { OVERSHOOT, REACH, truePeakFinder } from "./truepeak";

/** Samples kept before each step, for the filter between samples. */
export const BEFORE = 2 * REACH;
/** About this many samples share one look at whether they can matter for a peak. */
const GRAIN = 256;

/** All that is found sample by sample: peaks of every track and of the mixes, clipping, mean. */
export interface Peaks {
  readonly scans: readonly Scan[];
  /** Largest absolute value at and between the samples of each track. */
  readonly truePeaks: Float64Array;
  readonly pair: PairPeaks;
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
 * @param rows samples of each track: BEFORE and one step, in the memory of the loops
 * @param gains of each track into the left and right side
 */
export const newPeaks = (
  loops: Loops,
  rows: readonly Float64Array[],
  gains: readonly Sides[],
  step: number,
): Peaks => {
  const grain = Math.ceil(step / Math.ceil(step / GRAIN));
  const pair = newPairPeaks(gains);
  const takeStretch = pairTaker(loops, pair, rows, grain);
  const scanStretch = scanner(loops);
  const peakBetween = truePeakFinder(loops, grain);
  const scans = rows.map(newScan);
  const truePeaks = new Float64Array(rows.length);
  /** Largest sample of each track in the grain before, and in this grain with the one before. */
  const before = new Float64Array(rows.length);
  const tops = new Float64Array(rows.length);

  const takeGrain = (from: number, to: number, frame: number): void => {
    rows.forEach((row, t) => {
      const top = scanStretch(scans[t] as Scan, row, from, to);
      const near = Math.max(top, before[t] as number);
      const best = Math.max(top, truePeaks[t] as number);
      tops[t] = near;
      // A grain shorter than the reach must not hide the one before it.
      before[t] = to - from < BEFORE ? near : top;
      truePeaks[t] = near * OVERSHOOT > best ? peakBetween(row, from - REACH, to - REACH, best) : best;
    });
    takeStretch(tops, from, to, frame);
  };

  return {
    scans,
    truePeaks,
    pair,
    take: (count, frame) => {
      const end = BEFORE + count;
      for (let from = BEFORE; from < end; from += grain)
        takeGrain(from, Math.min(end, from + grain), frame + from - BEFORE);
    },
    flush: (frame) => {
      for (const row of rows) row.fill(0, BEFORE, 2 * BEFORE);
      takeStretch(before, BEFORE, 2 * BEFORE, frame);
      rows.forEach((row, t) => {
        truePeaks[t] = peakBetween(row, REACH, 2 * BEFORE - REACH, truePeaks[t] as number);
      });
    },
  };
};
