import type { Gain } from "../model/units";

/**
 * Neighbouring samples that share one look at their largest value and step. Even, so that they can be taken two at a
 * time, and not fewer than what makes a place between samples on one side of it (REACH).
 */
export const RUN = 16;

/**
 * The loops in which a measurement spends its time. They can be had in another form, as of SIMD instructions, as long
 * as that comes to the same numbers to the last bit: the order of additions is part of what they are.
 * All arrays that they are given come from `numbers`.
 */
export interface Loops {
  /** Memory that the loops can reach: zeros, kept as long as the measurement. */
  readonly numbers: (length: number) => Float64Array;
  /** Σ ac, Σ ad, Σ bc and Σ bd over [from, to): four products for four reads. */
  readonly square: (
    out: Float64Array,
    a: Float64Array,
    b: Float64Array,
    c: Float64Array,
    d: Float64Array,
    from: number,
    to: number,
  ) => void;
  /** Σ x and the largest |x| over [from, to). What is no number makes the Σ none, and counts for nothing else. */
  readonly scan: (out: Float64Array, x: Float64Array, from: number, to: number) => void;
  /** Adds gain·x[from…to) to the beginning of `out`. */
  readonly add: (out: Float64Array, x: Float64Array, gain: Gain, from: number, to: number) => void;
  /**
   * For each RUN samples from `from` on: the largest |x|, and the largest difference to the sample before, by turns.
   * x[from − 1] must exist.
   */
  readonly runs: (out: Float64Array, x: Float64Array, from: number, to: number) => void;
  /**
   * Takes the squares of x[from…to), a multiple of four, into two exponential averages (IEC 61672-1). Four squares weighed at once
   * need one wait for the last average instead of four. Within four samples an average cannot have stood higher than
   * what decays to its end in three: only where that is beyond the largest so far are they taken one by one, so the
   * largest is right but for rounding. Each average is looked at for itself.
   * @param averages of both by turns: now, largest, share of a new square, and what remains after 1, 2, 3, 4 samples
   */
  readonly exponentialAverages: (averages: Float64Array, x: Float64Array, from: number, to: number) => void;
}
