import type { Hertz, Sides } from "../model/units";
import { mixedEnergy, productAt, productCount, productsOf } from "./covariance";
import type { MeasuredFigures } from "./figures";
import { BLOCK_STEPS, stepFrames } from "./gate";
import type { Loops } from "./loops";
import { BEFORE, newPeaks } from "./peaks";
import { newRows } from "./rows";
import { summarise } from "./summary";
import { timeWeighting } from "./time-weighting";

/** Products of gating blocks that are kept at most: 16 MB, six hours of eight tracks or six minutes of 64. */
const KEPT_PRODUCTS = 2 ** 21;

/** Everything that runs while the samples of a recording pass. */
export interface Bank {
  /** Frames of a step: about 50 ms. */
  readonly step: number;
  /** Where the samples of each track are put before `push`, from index `start` on. */
  readonly rows: readonly Float64Array[];
  readonly start: number;
  /** Takes one step from the rows. Only the last may be shorter. */
  readonly push: (count: number) => void;
  /** Closes the measurement. */
  readonly finish: () => MeasuredFigures;
}

const addPlacement = (sum: Float64Array, more: Float64Array): void => {
  for (let i = 0; i < sum.length; i += 1) sum[i] = (sum[i] as number) + (more[i] as number);
};

/**
 * A measurement of several tracks side by side and of their sum through the given gains.
 * The memory it takes grows with the length only by the course (4 bytes a column and step) and the kept blocks.
 * @param gains signed gain of each track into the left and right side
 */
export const newBank = (rate: Hertz, gains: readonly Sides[], loops: Loops): Bank => {
  const tracks = gains.length;
  const step = stepFrames(rate);
  const rows = gains.map(() => loops.numbers(BEFORE + step));
  const peaks = newPeaks(loops, rows, gains, step);
  const meters = gains.map(() => timeWeighting(rate, loops));
  const size = productCount(tracks);
  const busProducts = productsOf(loops, rows);
  const now = new Float64Array(size);
  const block = new Float64Array(size);
  const whole = new Float64Array(size);
  const sides = [peaks.pair.left, peaks.pair.right, peaks.pair.mono].map((mix) => mix.gains);
  const course = newRows(tracks + sides.length);
  const powers = new Float64Array(course.columns);
  let blocks: number[] | null = [];
  let inBlock = 0;
  let frames = 0;

  const closeBlock = (): void => {
    if (inBlock === 0) return;
    if (blocks && blocks.length + size > KEPT_PRODUCTS) blocks = null;
    for (let p = 0; p < size; p += 1) blocks?.push((block[p] as number) / inBlock);
    block.fill(0);
    inBlock = 0;
  };

  const takeProducts = (count: number): void => {
    busProducts(now, BEFORE, BEFORE + count);
    addPlacement(block, now);
    addPlacement(whole, now);
    for (let t = 0; t < tracks; t += 1) powers[t] = (now[productAt(t, t)] as number) / count;
    sides.forEach((gain, i) => {
      powers[tracks + i] = mixedEnergy(now, gain) / count;
    });
    course.add(powers);
    inBlock += count;
    if (course.rows() % BLOCK_STEPS === 0) closeBlock();
  };

  return {
    step,
    rows,
    start: BEFORE,
    push: (count) => {
      peaks.take(count, frames);
      rows.forEach((row, t) => {
        meters[t]?.push(row.subarray(BEFORE, BEFORE + count));
      });
      takeProducts(count);
      for (const row of rows) row.copyWithin(0, count, count + BEFORE);
      frames += count;
    },
    finish: () => {
      closeBlock();
      peaks.flush(frames);
      return summarise({ rate, frames, peaks, meters, whole, blocks, course });
    },
  };
};
