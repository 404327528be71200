import type { Db, Hertz, Seconds } from "../model/units";

/** Time of one step of the level over time. */
export const STEP: Seconds = 0.05;
/** Frames of one step at a rate: a multiple of 4, so that whole steps begin at whole words of packed samples. */
export const stepFrames = (rate: Hertz): number => 4 * Math.round((rate * STEP) / 4);

/** Steps in one stretch that is playing or not: 400 ms, the block of ITU-R BS.1770. */
export const STRETCH_STEPS = 8;
/**
 * A stretch counts as playing when it is at most this much below the loudest stretch.
 * A design choice: the spill of a kit in a close microphone is commonly 15–25 dB down, a soft stroke less.
 */
export const GATE: Db = 20;

const GATE_RATIO = 10 ** (-GATE / 10);

/**
 * Mean power while playing: the mean over the stretches of 400 ms that are within 20 dB of the loudest one.
 * The pauses of a tom that is hit twice in a song do not pull its level down.
 * @param powers mean power of each stretch
 * @returns 0 when all is silent
 */
export const playingPower = (powers: ArrayLike<number>): number => {
  let loudest = 0;
  for (let i = 0; i < powers.length; i += 1) loudest = Math.max(loudest, powers[i] as number);
  if (loudest === 0) return 0;
  let sum = 0;
  let count = 0;
  for (let i = 0; i < powers.length; i += 1) {
    const power = powers[i] as number;
    if (power < loudest * GATE_RATIO) continue;
    sum += power;
    count += 1;
  }
  return sum / count;
};
