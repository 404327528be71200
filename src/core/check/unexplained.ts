import { ANSWERS } from "../model/kinds";
import type { Check } from "./check";
import { PEOPLE } from "./people";
import type { ProbeChances } from "./responses";

/** Chance of something that is none of the candidates, before the first hit. Tuned by simulation. */
export const UNEXPLAINED_PRIOR = 0.02;
/** Share of the drums that go their own way when two things are wrong at once. A design choice. */
const ODD = 0.15;
/** Share of it in which the answers follow nothing at all. A design choice. */
const ADRIFT = 0.2;
/** Lapse rate of somebody who always hears the same of a drum. A design choice. */
const LAPSE = 0.05;

/** A candidate that fits so much worse than the best is no base, to the last digit shown. */
const NOWHERE = 1e-5;

const even = 1 / ANSWERS.length;

/** Likelihood of the answers to one probe when it goes its own way, always alike. */
const ownWay = (answers: readonly number[]): number => {
  let sum = 0;
  for (let always = 0; always < ANSWERS.length; always++) {
    const same = answers.filter((answer) => answer === always).length;
    sum += even * (1 - LAPSE) ** same * (LAPSE / (ANSWERS.length - 1)) ** (answers.length - same);
  }
  return sum;
};

/**
 * "Something else" as a candidate of its own, so that a sequence nothing explains is not given a name: mostly one of the
 * faults of the whole path with some drums going their own way (each always alike), and partly answers that follow
 * nothing at all.
 * @param prior of listeners and levels of the overheads
 * @param asked places of probes and answers
 * @param likelihoods of the candidates themselves: one that is nowhere near is no base
 */
export const unexplainedLikelihood = (
  check: Check,
  prior: Float64Array,
  asked: readonly { readonly probe: number; readonly answer: number }[],
  likelihoods: readonly number[],
): number => {
  const byProbe = new Map<number, number[]>();
  for (const { probe, answer } of asked) byProbe.set(probe, [...(byProbe.get(probe) ?? []), answer]);
  const whole = check.candidates.map((candidate, at) => ({ candidate, fits: likelihoods[at] as number }));
  const bases = whole.filter(({ candidate }) => candidate.channel === null);
  const weight = bases.reduce((sum, base) => sum + base.candidate.prior, 0);
  const best = Math.max(...bases.map(({ fits }) => fits));
  const groups = [...byProbe].map(([probe, answers]) => ({ probe, answers, own: ODD * ownWay(answers) }));
  const people = PEOPLE.length;
  let likelihood = 0;
  for (const { candidate: base, fits: known } of bases) {
    if (known < NOWHERE * best) continue;
    const joint = prior.slice();
    for (const { probe, answers, own } of groups)
      (base.chances[probe] as ProbeChances).forEach((list, level) => {
        for (let person = 0; person < people; person++) {
          let fits = 1 - ODD;
          for (const answer of answers) fits *= list[answer * people + person] as number;
          const at = level * people + person;
          joint[at] = (joint[at] as number) * (fits + own);
        }
      });
    likelihood += (base.prior / weight) * joint.reduce((sum, w) => sum + w, 0);
  }
  return (1 - ADRIFT) * likelihood + ADRIFT * even ** asked.length;
};
