import type { Db } from "../model/units";

/** What a check does not know of the person who answers, and infers together with the fault. */
export interface Person {
  /** A level difference smaller than this is called "middle", dB. */
  readonly threshold: Db;
  /** What this person hears farther to the right than it is, dB: a weaker left ear or a tighter right earpiece. */
  readonly offset: Db;
  /** Says "can’t place it" of an inverted pair; others take it for the middle or a side. */
  readonly admits: boolean;
  /** Lapse rate: share of answers by the wrong button, whatever is heard. */
  readonly lapseRate: number;
  /** Chance before the first hit; those of all people sum to 1. */
  readonly prior: number;
}

/** One value that a person can have, and its chance before the first hit. */
export type Level<T> = readonly [value: T, prior: number];

/** A design choice: from a practised ear to one that calls only a hard pan a side. All alike. */
export const THRESHOLDS: readonly Level<Db>[] = [2, 4, 6, 8].map((threshold) => [threshold, 0.25]);
/** Near 0 more often than not far off; 6 dB between two ears is not rare. Shares tuned by simulation. */
export const OFFSETS: readonly Level<Db>[] = [
  [-6, 0.14],
  [-3, 0.14],
  [0, 0.44],
  [3, 0.14],
  [6, 0.14],
];
/** A design choice: a third would rather guess. */
const ADMITS: readonly Level<boolean>[] = [
  [true, 0.65],
  [false, 0.35],
];
/** A design choice: one answer in thirty, or one in ten. */
export const LAPSE_RATES: readonly Level<number>[] = [
  [0.03, 0.6],
  [0.1, 0.4],
];

/**
 * Everybody a check reckons with: a grid of threshold, offset, habit and lapse rate with a joint prior, updated by Bayes
 * after each answer, and the next hit chosen for the least expected entropy. That is the psi method of
 * L. L. Kontsevich and C. W. Tyler, Bayesian adaptive estimation of psychometric slope and threshold, Vision Research
 * 39 (1999) 2729–2737 (cited from memory), with the fault as one more unknown and the only one whose entropy counts.
 */
export const PEOPLE: readonly Person[] = THRESHOLDS.flatMap(([threshold, t]) =>
  OFFSETS.flatMap(([offset, o]) =>
    ADMITS.flatMap(([admits, a]) =>
      LAPSE_RATES.map(([lapseRate, l]) => ({ threshold, offset, admits, lapseRate, prior: t * o * a * l })),
    ),
  ),
);
