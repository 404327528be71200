import { levelOfPower, powerOf } from "../level/decibels";
import { stepFrames } from "../measure/gate";
import { PLAIN_LOOPS } from "../measure/plain-loops";
import type { Db, Hertz, Seconds, Sides } from "../model/units";

/** What is read of a steady sound. */
export interface SteadyReading {
  readonly seconds: Seconds;
  /** Level of each side, noise taken off, dBFS rms; −∞ for a side with nothing above the noise. */
  readonly levels: Sides<Db>;
  /** Standard error of the louder level, dB; ∞ before two steps of 50 ms have passed. */
  readonly error: Db;
}

/** Measures a steady sound. What it keeps does not grow. */
export interface SteadyMeter {
  /** Takes samples of both sides, equally many; blocks of any length. */
  readonly take: (left: Float32Array, right: Float32Array) => void;
  readonly read: () => SteadyReading;
}

/**
 * Begins to measure a steady sound: a tone or pink noise.
 * @param sampleRate samples a second
 * @param noise level of each side without the sound, dBFS rms; −∞ where nobody has measured it
 */
export const steadyMeter = (
  sampleRate: Hertz,
  noise: Sides<Db> = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
): SteadyMeter => {
  const length = stepFrames(sampleRate);
  const row = PLAIN_LOOPS.numbers(length);
  const squares = PLAIN_LOOPS.numbers(4);
  const powerIn = (samples: Float32Array, count: number): number => {
    row.set(samples);
    PLAIN_LOOPS.square(squares, row, row, row, row, 0, count);
    return squares[0] as number;
  };
  /** Of the step that passes, and of all before it: Σ of squares; of all before it Σ of squared powers. */
  const now: [left: number, right: number] = [0, 0];
  const sums: [left: number, right: number] = [0, 0];
  const squared: [left: number, right: number] = [0, 0];
  let filled = 0;
  let steps = 0;

  return {
    take: (left, right) => {
      for (let from = 0; from < left.length; ) {
        const count = Math.min(left.length - from, length - filled);
        now[0] += powerIn(left.subarray(from, from + count), count);
        now[1] += powerIn(right.subarray(from, from + count), count);
        filled += count;
        from += count;
        if (filled < length) continue;
        for (const side of [0, 1] as const) {
          const power = now[side] / length;
          sums[side] += power;
          squared[side] += power * power;
          now[side] = 0;
        }
        filled = 0;
        steps += 1;
      }
    },
    read: () => {
      const mean = (side: 0 | 1): number => sums[side] / Math.max(1, steps);
      const above = (side: 0 | 1): number => {
        const under = powerOf(noise[side]);
        return mean(side) - under > under ? mean(side) - under : 0;
      };
      const louder = mean(0) >= mean(1) ? 0 : 1;
      const variance = Math.max(0, squared[louder] / Math.max(1, steps) - mean(louder) ** 2);
      const error =
        steps < 2
          ? Number.POSITIVE_INFINITY
          : ((10 / Math.LN10) * Math.sqrt(variance / (steps - 1))) / (mean(louder) || 1);
      return {
        seconds: (steps * length) / sampleRate,
        levels: [levelOfPower(above(0)), levelOfPower(above(1))],
        error,
      };
    },
  };
};
