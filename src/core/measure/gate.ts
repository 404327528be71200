import type { Db, Hertz, Seconds } from "../model/units";

/** Time of one step of the level over time. */
export const STEP: Seconds = 0.05;
/** Frames of one step at a rate: a multiple of 4, so that whole steps begin at whole words of packed samples. */
export const stepFrames = (rate: Hertz): number => 4 * Math.round((rate * STEP) / 4);

/** Steps in one gating block: 400 ms, the block of ITU-R BS.1770. */
export const BLOCK_STEPS = 8;
/**
 * A block passes the gate when it is at most this much below the loudest block.
 * A design choice: the spill of a kit in a close microphone is commonly 15–25 dB down, a soft stroke less.
 */
export const GATE: Db = 20;

const GATE_RATIO = 10 ** (-GATE / 10);

/** What passes the gate. */
export interface Gated {
  /** Mean power of the blocks that pass; 0 when all is silent. */
  readonly power: number;
  /** Their share of all blocks, 0…1; 0 when all is silent. */
  readonly activity: number;
}

/** The least power with which a block passes the gate, by the loudest of them; 0 when all is silent. */
export const gateOf = (powers: ArrayLike<number>): number => {
  let loudest = 0;
  for (let i = 0; i < powers.length; i += 1) loudest = Math.max(loudest, powers[i] as number);
  return loudest * GATE_RATIO;
};

/**
 * Gates by the loudest block: the pauses of a tom that is hit twice in a song do not pull its level down.
 * @param powers mean power of each gating block
 */
export const gated = (powers: ArrayLike<number>): Gated => {
  const gate = gateOf(powers);
  if (gate === 0) return { power: 0, activity: 0 };
  let sum = 0;
  let count = 0;
  for (let i = 0; i < powers.length; i += 1) {
    const power = powers[i] as number;
    if (power < gate) continue;
    sum += power;
    count += 1;
  }
  return { power: sum / count, activity: count / powers.length };
};
