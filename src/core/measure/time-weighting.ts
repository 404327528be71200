import { levelOfPower } from "../level/decibels";
import type { Db, Hertz, Seconds } from "../model/units";
import type { Loops } from "./loops";
import { PLAIN_LOOPS } from "./plain-loops";

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
  /** Takes samples one after the other, in the memory of the loops; blocks of any length. */
  readonly push: (samples: Float64Array) => void;
  readonly fast: () => WeightedLevel;
  readonly slow: () => WeightedLevel;
}

/** Both averages by turns: now, largest, share of a new square, what remains after 1, 2, 3 and 4 samples. */
const KINDS = 7;
const [NOW, LARGEST, SHARE] = [0, 2, 4] as const;

/** Share of a new square in the average: exact for a square that is held over the sample's time. */
const share = (tau: Seconds, rate: Hertz): number => -Math.expm1(-1 / (tau * rate));

const newAverages = (loops: Loops, rate: Hertz): Float64Array => {
  const averages = loops.numbers(2 * KINDS);
  [FAST, SLOW].forEach((tau, which) => {
    averages[SHARE + which] = share(tau, rate);
    for (let n = 1; n <= 4; n += 1) averages[SHARE + 2 * n + which] = Math.exp(-n / (tau * rate));
  });
  return averages;
};

const takeOne = (averages: Float64Array, which: number, square: number): void => {
  const now = averages[NOW + which] as number;
  const next = now + (averages[SHARE + which] as number) * (square - now);
  averages[NOW + which] = next;
  averages[LARGEST + which] = Math.max(next, averages[LARGEST + which] as number);
};

/**
 * Begins the F and S time weighting of a signal, from silence.
 * @param rate samples a second
 */
export const timeWeighting = (rate: Hertz, loops: Loops = PLAIN_LOOPS): TimeWeighting => {
  const averages = newAverages(loops, rate);
  const level = (which: number): WeightedLevel => ({
    now: levelOfPower(averages[NOW + which] as number),
    max: levelOfPower(averages[LARGEST + which] as number),
  });
  return {
    push: (samples) => {
      const whole = samples.length - (samples.length % 4);
      loops.exponentialAverages(averages, samples, 0, whole);
      for (const which of [0, 1]) {
        for (const sample of samples.subarray(whole)) takeOne(averages, which, sample ** 2);
        if ((averages[NOW + which] as number) < FLOOR) averages[NOW + which] = 0;
      }
    },
    fast: () => level(0),
    slow: () => level(1),
  };
};
