import { levelOf, levelOfPower } from "../level/decibels";
import { productAt, productsOf } from "../measure/covariance";
import { stepFrames } from "../measure/gate";
import { BEFORE, newPeaks } from "../measure/peaks";
import { PLAIN_LOOPS } from "../measure/plain-loops";
import { timeWeighting } from "../measure/time-weighting";
import type { Db, Gain, Hertz, Sides } from "../model/units";
import { levelDifference } from "../stereo/position";
import type { PairKind, PairMeter, PairReading, SideReading } from "./pair";

/** Steps of 50 ms in a second: the window of correlation, difference and kind. */
const WINDOW = 20;
/** Steps of the live peak: half a second. */
const PEAK_STEPS = 10;
/** A side below this carries nothing. A design choice: converters of small interfaces make less noise. */
const NOTHING: Db = -80;
/** Nor does one that is so far below the other: what crosses over within an interface. A design choice. */
const CROSSTALK: Db = 60;

/** One step of 50 ms, or the part of it that has passed. */
interface Step {
  /** Σ of the products left·left, right·left, right·right. */
  readonly products: Float64Array;
  readonly tops: [left: Gain, right: Gain];
  frames: number;
  /** Not one sample of the two sides differed. */
  same: boolean;
  clipped: boolean;
}

const newStep = (): Step => ({
  products: new Float64Array(3),
  tops: [0, 0],
  frames: 0,
  same: true,
  clipped: false,
});

const [LEFT, BOTH, RIGHT] = [productAt(0, 0), productAt(1, 0), productAt(1, 1)];

const kindOf = ([left, right]: Sides<Db>, same: boolean): PairKind => {
  const [hasLeft, hasRight] = [
    left >= Math.max(NOTHING, right - CROSSTALK),
    right >= Math.max(NOTHING, left - CROSSTALK),
  ];
  if (!hasLeft && !hasRight) return "silent";
  if (same) return "identical";
  return hasLeft && hasRight ? "pair" : hasLeft ? "left-only" : "right-only";
};

/**
 * Meters of a live pair, by the code that measures recordings.
 * @param sampleRate samples a second
 */
export const pairMeter = (sampleRate: Hertz): PairMeter => {
  const stepLength = stepFrames(sampleRate);
  const rows: Sides<Float64Array> = [
    PLAIN_LOOPS.numbers(BEFORE + stepLength),
    PLAIN_LOOPS.numbers(BEFORE + stepLength),
  ];
  const sumProducts = productsOf(PLAIN_LOOPS, rows);
  const products = new Float64Array(3);
  // The peaks of a mix are nobody's question here.
  const unmixed: readonly Sides[] = [
    [0, 0],
    [0, 0],
  ];
  const hold = () => ({
    peaks: newPeaks(PLAIN_LOOPS, rows, unmixed, stepLength),
    meters: [timeWeighting(sampleRate), timeWeighting(sampleRate)] as const,
    /** Σ of the squares of left and right, and over how many frames. */
    energies: [0, 0] as [left: number, right: number],
    frames: 0,
  });
  const live = [timeWeighting(sampleRate), timeWeighting(sampleRate)] as const;
  let held = hold();
  let steps: Step[] = [newStep()];

  const takeStretch = (count: number): void => {
    const end = BEFORE + count;
    const step = steps[0] as Step;
    const clippedBefore = clips();
    held.peaks.take(count, 0);
    if (clips() > clippedBefore) step.clipped = true;
    rows.forEach((row, side) => {
      const samples = row.subarray(BEFORE, end);
      live[side as 0 | 1].push(samples);
      held.meters[side as 0 | 1].push(samples);
      for (const sample of samples)
        step.tops[side as 0 | 1] = Math.max(step.tops[side as 0 | 1], Math.abs(sample));
    });
    sumProducts(products, BEFORE, end);
    products.forEach((sum, at) => {
      step.products[at] = (step.products[at] as number) + sum;
    });
    for (let i = BEFORE; step.same && i < end; i += 1) step.same = rows[0][i] === rows[1][i];
    held.energies[0] += products[LEFT] as number;
    held.energies[1] += products[RIGHT] as number;
    held.frames += count;
    step.frames += count;
    for (const row of rows) row.copyWithin(0, count, end);
    if (step.frames === stepLength) steps = [newStep(), ...steps.slice(0, WINDOW)];
  };
  const clips = (): number => held.peaks.scans.reduce((sum, scan) => sum + scan.clipped, 0);

  const read = (): PairReading => {
    const total = (of: (step: Step) => number): number => steps.reduce((sum, step) => sum + of(step), 0);
    const product = (at: number): number => total((step) => step.products[at] as number);
    const frames = Math.max(
      1,
      total((step) => step.frames),
    );
    const [left, both, right] = [product(LEFT), product(BOTH), product(RIGHT)];
    const levels: Sides<Db> = [levelOfPower(left / frames), levelOfPower(right / frames)];
    const side = (at: 0 | 1): SideReading => ({
      rms: live[at].fast().now,
      peak: levelOf(Math.max(...steps.slice(0, PEAK_STEPS + 1).map((step) => step.tops[at]))),
      meanRms: levelOfPower(held.energies[at] / Math.max(1, held.frames)),
      maxRms: held.meters[at].fast().max,
      maxPeak: levelOf(held.peaks.scans[at]?.peak ?? 0),
      maxTruePeak: levelOf(held.peaks.truePeaks[at] as number),
      clipped: held.peaks.scans[at]?.clipped ?? 0,
    });
    const kind = kindOf(
      levels,
      steps.every((step) => step.same),
    );
    return {
      kind,
      sides: [side(0), side(1)],
      seconds: held.frames / sampleRate,
      difference: levelDifference([Math.sqrt(left), Math.sqrt(right)]),
      correlation:
        kind === "pair" || kind === "identical"
          ? Math.max(-1, Math.min(1, both / Math.sqrt(left * right)))
          : null,
      overload: steps.some((step) => step.clipped),
    };
  };

  return {
    take: (left, right) => {
      for (let from = 0; from < left.length; ) {
        const count = Math.min(left.length - from, stepLength - (steps[0] as Step).frames);
        rows[0].set(left.subarray(from, from + count), BEFORE);
        rows[1].set(right.subarray(from, from + count), BEFORE);
        takeStretch(count);
        from += count;
      }
    },
    read,
    reset: () => {
      held = hold();
    },
  };
};
