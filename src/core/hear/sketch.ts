import type { Db } from "../model/units";
import { differenceOver, USUAL_UNDER } from "./likelihood";
import type { HitPrediction } from "./prediction";

/** Worlds of a sketch: enough for means and variances. */
export const SKETCHED = 24;

/** Mean and variance. */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
}

/** What a hit brings, roughly: for expectations and for what tells states apart. */
export interface Sketch {
  readonly difference: Moments;
  readonly agreement: Moments;
  readonly first: Moments;
  readonly level: Moments;
  /** Mean correlation of the sides. */
  readonly correlation: number;
}

/** Level that stands for silence, so that it can be compared. */
const SILENCE: Db = -100;

const momentsOf = (values: Float64Array): Moments => {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length;
  return { mean, variance: values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / values.length };
};

/** What lies under a first wave in a calm room, as a share of its power. A design choice. */
const FIRST_UNDER = 10 ** -2;

const differences = (left: Float64Array, right: Float64Array, under: number): Moments =>
  momentsOf(left.map((l, world) => differenceOver(l, right[world] as number, under)));

/** The sketch of a prediction. */
export const sketched = ({
  left,
  right,
  correlation,
  agreement,
  firstLeft,
  firstRight,
  level,
}: HitPrediction): Sketch => ({
  difference: differences(left, right, USUAL_UNDER),
  first: differences(firstLeft, firstRight, FIRST_UNDER),
  agreement: momentsOf(agreement),
  level: momentsOf(level.map((l) => Math.max(SILENCE, l))),
  correlation: momentsOf(correlation).mean,
});

/** Bhattacharyya distance of two normal distributions: 0 where they are the same. */
const distance = (a: Moments, b: Moments, error: number): number => {
  const [va, vb] = [a.variance + error ** 2, b.variance + error ** 2];
  return (a.mean - b.mean) ** 2 / (4 * (va + vb)) + Math.log((va + vb) / (2 * Math.sqrt(va * vb))) / 2;
};

/** How far two sketches are apart by one hit. @param errors of difference, agreement and level */
export const apart = (
  a: Sketch,
  b: Sketch,
  errors: { readonly difference: Db; readonly first: Db; readonly agreement: number; readonly level: Db },
): number =>
  a === b
    ? 0
    : distance(a.difference, b.difference, errors.difference) +
      distance(a.first, b.first, errors.first) +
      distance(a.agreement, b.agreement, errors.agreement) +
      distance(a.level, b.level, errors.level);
