import { levelOfPower } from "./decibels";
import type { Db, Hertz, Seconds } from "./units";

/** Time constant F, IEC 61672-1:2013, 5.8.1. */
const FAST: Seconds = 0.125;
/** Time constant S, IEC 61672-1:2013, 5.8.1. */
const SLOW: Seconds = 1;
/** Power below which the averages count as silence (−300 dB): numbers much smaller are slow to compute with. */
const FLOOR = 1e-30;

/** Level now and the largest so far, dB re full scale by samples (a full-scale sine settles at −3.01). */
export interface WeightedLevel {
  readonly now: Db;
  readonly max: Db;
}

/** An exponential average of the squares of a signal, with both time constants at once. */
export interface TimeWeighting {
  /** Takes samples one after the other; blocks of any length. */
  readonly push: (samples: ArrayLike<number>) => void;
  /** Takes one squared sample. */
  readonly pushSquare: (square: number) => void;
  readonly fast: () => WeightedLevel;
  readonly slow: () => WeightedLevel;
}

/** Share of a new square in the average: exact for a square that is held over the sample's time. */
const share = (tau: Seconds, rate: Hertz): number => -Math.expm1(-1 / (tau * rate));

/**
 * Begins the F and S time weighting of a signal, from silence. Both run in one loop over the samples,
 * for it is the wait for the last average that costs time.
 * @param rate samples a second
 */
export const timeWeighting = (rate: Hertz): TimeWeighting => {
  const f = share(FAST, rate);
  const s = share(SLOW, rate);
  let fast = 0;
  let slow = 0;
  let fastMax = 0;
  let slowMax = 0;

  const pushSquare = (square: number): void => {
    fast += f * (square - fast);
    slow += s * (square - slow);
    if (fast > fastMax) fastMax = fast;
    if (slow > slowMax) slowMax = slow;
  };

  return {
    push: (samples) => {
      for (let i = 0; i < samples.length; i += 1) {
        const sample = samples[i] as number;
        pushSquare(sample * sample);
      }
      if (fast < FLOOR) fast = 0;
      if (slow < FLOOR) slow = 0;
    },
    pushSquare,
    fast: () => ({ now: levelOfPower(fast), max: levelOfPower(fastMax) }),
    slow: () => ({ now: levelOfPower(slow), max: levelOfPower(slowMax) }),
  };
};
