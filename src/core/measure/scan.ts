import type { Loops } from "./loops";

/** Samples beyond this (+120 dBFS), and those that are no number, are no audio: they count as silence and are counted. */
const PLAUSIBLE = 1e6;

/** Three or more samples in a row at full scale are a clipped run; the number is common practice, no source. */
const CLIPPED_IN_A_ROW = 3;
/** Full scale of 16 bits, the coarsest that is read: 1 − 2^−15. */
const FULL_SCALE = 1 - 2 ** -15;

/** What runs through all the samples of one track. */
export interface Scan {
  /** Largest absolute sample so far. */
  peak: number;
  /** Plain sum of all samples. */
  sum: number;
  /** Clipped runs so far. */
  clipped: number;
  /** Samples at full scale directly before the next one. */
  run: number;
  /** Samples that were no number or beyond +120 dBFS. */
  unusable: number;
}

/** A scan before the first sample. */
export const newScan = (): Scan => ({ peak: 0, sum: 0, clipped: 0, run: 0, unusable: 0 });

/** Silences what is no audio and counts it. */
const clean = (scan: Scan, x: Float64Array, from: number, to: number): void => {
  for (let i = from; i < to; i += 1) {
    if (Math.abs(x[i] as number) <= PLAUSIBLE) continue;
    x[i] = 0;
    scan.unusable += 1;
  }
};

const countClipped = (scan: Scan, x: Float64Array, from: number, to: number): void => {
  for (let i = from; i < to; i += 1) {
    scan.run = Math.abs(x[i] as number) >= FULL_SCALE ? scan.run + 1 : 0;
    if (scan.run === CLIPPED_IN_A_ROW) scan.clipped += 1;
  }
};

/**
 * Makes what takes x[from…to) into a scan, silencing unusable samples in place.
 * @returns the largest absolute sample of the stretch
 */
export const scanner = (loops: Loops) => {
  const found = loops.numbers(2);
  return (scan: Scan, x: Float64Array, from: number, to: number): number => {
    loops.scan(found, x, from, to);
    // A sample that is no number shows in the bus only.
    if (Number.isNaN(found[0]) || (found[1] as number) > PLAUSIBLE) {
      clean(scan, x, from, to);
      loops.scan(found, x, from, to);
    }
    const top = found[1] as number;
    scan.sum += found[0] as number;
    if (top >= FULL_SCALE) countClipped(scan, x, from, to);
    else scan.run = 0;
    scan.peak = Math.max(scan.peak, top);
    return top;
  };
};
