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
  readonly fast: () => WeightedLevel;
  readonly slow: () => WeightedLevel;
}

/** Share of a new square in the average: exact for a square that is held over the sample's time. */
const share = (tau: Seconds, rate: Hertz): number => -Math.expm1(-1 / (tau * rate));

/** One exponential average and its largest value. */
interface Average {
  now: number;
  max: number;
  /** Share of a new square, and what remains of the old after one, two, three and four samples. */
  readonly weights: readonly [share: number, one: number, two: number, three: number, four: number];
}

const newAverage = (tau: Seconds, rate: Hertz): Average => {
  const remains = Math.exp(-1 / (tau * rate));
  return { now: 0, max: 0, weights: [share(tau, rate), remains, remains ** 2, remains ** 3, remains ** 4] };
};

/**
 * Takes samples four at a time: four squares weighed at once need one wait for the last average instead of four.
 * Within four samples an average cannot have stood higher than what decays to its end in three:
 * only where that is beyond the largest so far are they taken one by one, so the largest is exact.
 */
const takeFours = (fast: Average, slow: Average, samples: ArrayLike<number>, whole: number): void => {
  const [f, f1, f2, f3, f4] = fast.weights;
  const [s, s1, s2, s3, s4] = slow.weights;
  let fastNow = fast.now;
  let slowNow = slow.now;
  let fastMax = fast.max;
  let slowMax = slow.max;
  for (let i = 0; i < whole; i += 4) {
    const a = (samples[i] as number) * (samples[i] as number);
    const b = (samples[i + 1] as number) * (samples[i + 1] as number);
    const c = (samples[i + 2] as number) * (samples[i + 2] as number);
    const d = (samples[i + 3] as number) * (samples[i + 3] as number);
    const fastEnd = f4 * fastNow + f * (f3 * a + f2 * b + f1 * c + d);
    const slowEnd = s4 * slowNow + s * (s3 * a + s2 * b + s1 * c + d);
    if (fastEnd > fastMax * f3) {
      const one = f1 * fastNow + f * a;
      const two = f1 * one + f * b;
      fastMax = Math.max(fastMax, one, two, f1 * two + f * c, fastEnd);
    }
    if (slowEnd > slowMax * s3) {
      const one = s1 * slowNow + s * a;
      const two = s1 * one + s * b;
      slowMax = Math.max(slowMax, one, two, s1 * two + s * c, slowEnd);
    }
    fastNow = fastEnd;
    slowNow = slowEnd;
  }
  Object.assign(fast, { now: fastNow, max: fastMax });
  Object.assign(slow, { now: slowNow, max: slowMax });
};

const takeOne = (average: Average, square: number): void => {
  average.now += average.weights[0] * (square - average.now);
  if (average.now > average.max) average.max = average.now;
};

const takeSamples = (fast: Average, slow: Average, samples: ArrayLike<number>): void => {
  const whole = samples.length - (samples.length % 4);
  takeFours(fast, slow, samples, whole);
  for (let i = whole; i < samples.length; i += 1) {
    takeOne(fast, (samples[i] as number) ** 2);
    takeOne(slow, (samples[i] as number) ** 2);
  }
  if (fast.now < FLOOR) fast.now = 0;
  if (slow.now < FLOOR) slow.now = 0;
};

const levels = ({ now, max }: Average): WeightedLevel => ({ now: levelOfPower(now), max: levelOfPower(max) });

/**
 * Begins the F and S time weighting of a signal, from silence.
 * @param rate samples a second
 */
export const timeWeighting = (rate: Hertz): TimeWeighting => {
  const fast = newAverage(FAST, rate);
  const slow = newAverage(SLOW, rate);
  return {
    push: (samples) => {
      takeSamples(fast, slow, samples);
    },
    fast: () => levels(fast),
    slow: () => levels(slow),
  };
};
