import type { Answer } from "../model/setup";
import { ANSWER_MODEL, ANSWERS, withSlips } from "./answers";
import type { Check } from "./check";

/** The hits of one strike, as places in `ANSWERS`. */
export type HeardAnswers = readonly (readonly number[])[];

/** Weight of "something else" before the first hit, against all known faults together. Tuned by simulation. */
export const ELSE_PRIOR = 0.02;
/** Share of the strikes that go their own way when two things are wrong at once. A design choice. */
const ODD = 0.15;
/** Share of "something else" in which the answers follow nothing at all. A design choice. */
const ADRIFT = 0.2;

const even = 1 / ANSWERS.length;
/** For each answer: the chances when that is always what is heard. */
const ALWAYS = ANSWERS.map((_, at) =>
  withSlips(
    ANSWERS.map((__, other) => (other === at ? 1 : 0)),
    ANSWER_MODEL.slip.share,
  ),
);

const likelihood = (chances: readonly number[], answers: readonly number[]): number =>
  answers.reduce((product, at) => product * (chances[at] ?? 0), 1);

/** "Something else": how well it fits the hits, and what it expects next. */
export interface Elsewise {
  readonly likelihood: number;
  /** Chance of each answer for each strike, given the hits. */
  readonly chances: readonly (readonly number[])[];
}

/**
 * "Something else" as a hypothesis of its own, so that a sequence nothing explains is called unknown:
 * mostly one of the known faults of the whole path with some strikes going their own way (each always alike),
 * and partly answers that follow nothing at all.
 * @param heard the answers so far of each strike, in the order of the check's strikes
 */
export const elsewise = (check: Check, heard: HeardAnswers): Elsewise => {
  const bases = check.sets.filter((s) => s.faults.some((f) => f.channel === null));
  const weight = bases.reduce((sum, b) => sum + b.prior, 0);
  const hits = heard.reduce((sum, answers) => sum + answers.length, 0);
  // How well a strike fits that goes its own way, so far and with each answer more.
  const own = heard.map((answers) => {
    const fits = ALWAYS.map((chances) => even * likelihood(chances, answers));
    const next = ANSWERS.map((_, at) => fits.reduce((sum, f, a) => sum + f * (ALWAYS[a]?.[at] ?? 0), 0));
    return { now: fits.reduce((sum, f) => sum + f, 0), next };
  });
  const drift = ADRIFT * even ** hits;
  let total = drift;
  const sums = heard.map(() => ANSWERS.map(() => drift * even));
  for (const base of bases) {
    const parts = heard.map((answers, strike) => {
      const chances = base.chances[strike] ?? [];
      const fits = (1 - ODD) * likelihood(chances, answers);
      const now = fits + ODD * (own[strike]?.now ?? 0);
      const next = ANSWERS.map((_, at) => fits * (chances[at] ?? 0) + ODD * (own[strike]?.next[at] ?? 0));
      return { now, next };
    });
    const all = parts.reduce((product, p) => product * p.now, ((1 - ADRIFT) * base.prior) / weight);
    total += all;
    parts.forEach(({ now, next }, strike) => {
      const row = sums[strike] as number[];
      for (let at = 0; at < row.length; at++)
        row[at] = (row[at] as number) + (all / now) * (next[at] as number);
    });
  }
  return { likelihood: total, chances: sums.map((row) => row.map((s) => s / total)) };
};

/** Place of an answer in every list of chances. */
export const placeOf = (answer: Answer): number => ANSWERS.indexOf(answer);
