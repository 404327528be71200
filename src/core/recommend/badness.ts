import type { Db } from "../model/units";
import type { Criteria } from "./model";

/**
 * How far from right something sounds; smaller is better, compared from the first figure on:
 * channels on the wrong side and channels that lost the L/R they must keep; then channels without a side;
 * then the score, in whole tenths and negative, so that a hair's breadth never decides.
 */
export type Badness = readonly [sides: number, flat: number, score: number];

/** What a tally comes to, added up over channels. */
export interface Buses {
  /** Channels on the wrong side, and channels that lost the L/R they must keep. */
  bad: number;
  flat: number;
  /** Sum of offset × heard, metres. */
  heard: number;
  /** Sum of distances from the middle, metres. */
  weight: number;
}

/** Score of buses: −1 … +1; 0 where nothing can be placed. */
export const scoreOf = ({ heard, weight }: Pick<Buses, "heard" | "weight">): number =>
  weight === 0 ? 0 : heard / weight;

/** What the arithmetic may be off by where a score lies between two tenths. */
const ROUNDING = 1e-9;

/** Badness of one listener's sums. */
export const badnessOf = (buses: Buses): Badness => [
  buses.bad,
  buses.flat,
  -Math.floor(scoreOf(buses) * 10 + 0.5 + ROUNDING) || 0,
];

/** Nothing is wrong, and nothing is heard. */
export const NO_BADNESS: Badness = [0, 0, 0];

/** Badness of two together. */
export const plus = (a: Badness, b: Badness): Badness => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** Which of two is worse: negative when the former is better. */
export const compareBadness = (a: Badness, b: Badness): number => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];

/** Residuals nearer than this are the same, dB. */
const SAME_DB: Db = 1e-8;

const compareResidual = (a: Db, b: Db): number => (Math.abs(a - b) < SAME_DB ? 0 : a - b);

/** The order of weight: who matters most, the others, monitor inputs, moves, exactness. Negative when the former is better. */
export const compare = (a: Criteria, b: Criteria): number =>
  compareBadness(a.first, b.first) ||
  compareBadness(a.others, b.others) ||
  a.inputs - b.inputs ||
  a.moves - b.moves ||
  compareResidual(a.residual, b.residual);

/** Whether nothing speaks for the latter: the former is as good in every criterion. */
export const isAsGood = (a: Criteria, b: Criteria): boolean =>
  compareBadness(a.first, b.first) <= 0 &&
  compareBadness(a.others, b.others) <= 0 &&
  a.inputs <= b.inputs &&
  a.moves <= b.moves &&
  compareResidual(a.residual, b.residual) <= 0;
