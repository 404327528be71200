import type { Hit, Id } from "../model/setup";
import { ANSWERS } from "./answers";
import type { Check } from "./check";
import { ELSE_PRIOR, elsewise, type HeardAnswers, placeOf } from "./elsewise";

/** What is believed after some hits. */
export interface Belief {
  /** Chance of each of the check's sets, in their order. */
  readonly sets: readonly number[];
  /** Chance of something that is no fault of the list. With `sets` it sums to 1. */
  readonly unknown: number;
  /** Uncertainty of the whole, bits. */
  readonly entropy: number;
}

/** Belief and the chances of the next answers, both from one pass over the hits. */
interface Weighed {
  readonly weights: readonly number[];
  readonly chances: readonly (readonly (readonly number[])[])[];
}

const bits = (chances: readonly number[]): number =>
  chances.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);

const byStrike = (check: Check, hits: readonly Hit[]): HeardAnswers => {
  const heard = new Map<Id, number[]>(check.strikes.map((s) => [s.piece, []]));
  for (const hit of hits) heard.get(hit.piece)?.push(placeOf(hit.answer));
  return [...heard.values()];
};

/** At most this many hits are asked for, and counted. A design choice: nobody hits on for ever. */
export const mostHits = (check: Check): number => 2 * check.strikes.length + 8;

/** The hits that count: of pieces that can be struck in this check, no more than are asked for. */
export const countedHits = (check: Check, hits: readonly Hit[]): readonly Hit[] => {
  const known = new Set(check.strikes.map((s) => s.piece));
  return hits.filter((h) => known.has(h.piece)).slice(0, mostHits(check));
};

const weighed = (check: Check, hits: readonly Hit[]): Weighed => {
  const heard = byStrike(check, hits);
  const other = elsewise(check, heard);
  const fits = check.sets.map((set) =>
    heard.reduce(
      (product, answers, strike) => answers.reduce((p, at) => p * (set.chances[strike]?.[at] ?? 0), product),
      (1 - ELSE_PRIOR) * set.prior,
    ),
  );
  fits.push(ELSE_PRIOR * other.likelihood);
  const total = fits.reduce((sum, f) => sum + f, 0);
  return {
    weights: fits.map((f) => f / total),
    chances: [...check.sets.map((s) => s.chances), other.chances],
  };
};

const beliefOf = ({ weights }: Weighed): Belief => ({
  sets: weights.slice(0, -1),
  unknown: weights.at(-1) ?? 0,
  entropy: bits(weights),
});

/**
 * Chance of every set of faults, and of something else, after the hits; sums to 1.
 * Hits of pieces that cannot be struck in this check are passed over.
 */
export const posterior = (check: Check, hits: readonly Hit[]): Belief =>
  beliefOf(weighed(check, countedHits(check, hits)));

/** Below this chance a hypothesis adds nothing to what can be learnt, to the last digit shown. */
const NEGLIGIBLE = 1e-6;

/** Expected information of one more answer for each strike, bits. */
const informations = (check: Check, { weights, chances }: Weighed): number[] =>
  check.strikes.map((_, strike) => {
    const mixed = ANSWERS.map(() => 0);
    let noise = 0;
    weights.forEach((weight, at) => {
      const row = chances[at]?.[strike];
      if (weight < NEGLIGIBLE || !row) return;
      for (let a = 0; a < row.length; a++) mixed[a] = (mixed[a] as number) + weight * (row[a] as number);
      noise += weight * bits(row);
    });
    return bits(mixed) - noise;
  });

/** Expected information of hitting each strike next, bits, in the order of the strikes. */
export const informationOf = (check: Check, hits: readonly Hit[]): number[] =>
  informations(check, weighed(check, countedHits(check, hits)));

/** A piece is asked at most this often in a row. */
const IN_A_ROW = 2;

/** Belief after the hits, and the piece to hit next: the one that tells most; null when none is left to ask. */
export const nextHit = (
  check: Check,
  hits: readonly Hit[],
): { readonly belief: Belief; readonly next: Id | null } => {
  const counted = countedHits(check, hits);
  const now = weighed(check, counted);
  const last = counted.slice(-IN_A_ROW).map((h) => h.piece);
  const worn = last.length === IN_A_ROW && last.every((p) => p === last[0]) ? last[0] : null;
  let next: Id | null = null;
  let most = Number.NEGATIVE_INFINITY;
  informations(check, now).forEach((information, at) => {
    const piece = check.strikes[at]?.piece;
    if (piece === undefined || piece === worn || information <= most) return;
    most = information;
    next = piece;
  });
  return { belief: beliefOf(now), next };
};
