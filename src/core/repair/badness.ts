import type { Db } from "../model/units";
import type { Tally } from "../stereo/placement";

/**
 * How far from right something sounds; smaller is better, compared from the first figure on:
 * channels on the wrong side and channels that lost the sides they must keep; then channels that are flat;
 * then the score, in whole tenths and negative, so that a hair's breadth never decides.
 */
export type Badness = readonly [sides: number, flat: number, score: number];

/** Badness of what one listener gets. */
export const badnessOf = (tally: Tally): Badness => [
  tally.wrong + tally.sidesLost,
  tally.centred,
  -Math.round((tally.score ?? 0) * 10) || 0,
];

/** Room for each figure of a badness of all listeners together: more than 32 listeners of 512 channels can reach. */
const FLAT_ROOM = 2 ** 11;
const SIDES_ROOM = FLAT_ROOM * 2 ** 15;

/** A badness as one whole number that orders and adds up as its figures do, one after the other. */
export const weightOf = ([sides, flat, score]: Badness): number =>
  sides * SIDES_ROOM + flat * FLAT_ROOM + score;

/** What one part of a recommendation costs: a state of the pair, or a choice for one listener. */
export interface Cost {
  /** Further inputs of the monitor system. */
  readonly inputs: number;
  /** Things done at the patch: swapping a pair, folding one, making a copy, patching it. */
  readonly patch: number;
  /** Pans set, in buses and at FOH. */
  readonly pans: number;
  /** Flips at players' own mixers. */
  readonly flips: number;
  /** How far the louder ear is from an exact mirror of what it was, dB, at the worst channel and listener. */
  readonly residual: Db;
}

/** Everything that is done, each thing once. */
export const movesOf = ({ patch, pans, flips }: Cost): number => patch + pans + flips;

/** Costs nothing. */
export const FREE: Cost = { inputs: 0, patch: 0, pans: 0, flips: 0, residual: 0 };
