import type { Hit } from "../model/setup";
import type { Candidate, Check, Probe } from "./check";
import { PEOPLE } from "./people";
import { type Joint, type ProbeChances, placeOf, priorJoint } from "./responses";
import { UNEXPLAINED_PRIOR, unexplainedLikelihood } from "./unexplained";

/** What is believed after some hits. */
export interface Belief {
  /** Chance of each of the check's candidates, in their order. */
  readonly candidates: readonly number[];
  /** Chance of something that is none of them. With `candidates` it sums to 1. */
  readonly unexplained: number;
  /** Uncertainty of the whole, bits. */
  readonly entropy: number;
}

/** The joint posterior. */
export interface Posterior {
  readonly belief: Belief;
  /** One for each candidate, not normalised; those that no hit has told from "planned" share one object. */
  readonly joints: readonly Joint[];
}

/** A probe that was asked, by its place, and the answer, by its place. */
interface Asked {
  readonly probe: number;
  readonly answer: number;
}

/** Uncertainty of some chances, bits. */
export const bits = (chances: readonly number[]): number => {
  let sum = 0;
  for (const p of chances) if (p > 0) sum -= p * Math.log2(p);
  return sum;
};

/** At most this many hits are asked for, and counted. A design choice: nobody hits on for ever. */
const MOST_HITS = 60;
/** Hits that a check of so many drums may take. */
export const mostHits = (check: Check): number =>
  Math.min(MOST_HITS, 2 * check.probes.filter((p) => p.action === null).length + 12);

const placeOfProbe = (check: Check, { piece, action = null }: Partial<Probe>): number =>
  check.probes.findIndex((p) => p.piece === piece && p.action === action);

/** The hits that count: of what can be asked in this check, no more than are asked for. */
export const countedHits = (check: Check, hits: readonly Hit[]): readonly Hit[] =>
  hits.filter((hit) => placeOfProbe(check, hit) >= 0).slice(0, mostHits(check));

const update = (joint: Joint, chances: ProbeChances, answer: number): void => {
  const people = PEOPLE.length;
  chances.forEach((list, level) => {
    const from = level * people;
    const row = answer * people;
    for (let at = 0; at < people; at++)
      joint[from + at] = (joint[from + at] as number) * (list[row + at] as number);
  });
};

const total = (joint: Joint): number => {
  let sum = 0;
  for (const weight of joint) sum += weight;
  return sum;
};

/**
 * Joint posterior of fault, listener and level of the overheads after the hits, by Bayes' rule.
 * Hits that cannot be asked for in this check are passed over.
 */
export const posteriorOf = (check: Check, hits: readonly Hit[]): Posterior => {
  const asked = countedHits(check, hits).map(
    (hit): Asked => ({ probe: placeOfProbe(check, hit), answer: placeOf(hit.answer) }),
  );
  const prior = priorJoint(check.overheads);
  const jointOf = ({ chances }: Candidate): Joint => {
    const joint = prior.slice();
    for (const { probe, answer } of asked) update(joint, chances[probe] as ProbeChances, answer);
    return joint;
  };
  const [planned] = check.candidates as readonly [Candidate];
  const shared = jointOf(planned);
  const joints = check.candidates.map((candidate) =>
    asked.every(({ probe }) => candidate.chances[probe] === planned.chances[probe])
      ? shared
      : jointOf(candidate),
  );
  const sharedTotal = total(shared);
  const likelihoods = joints.map((joint) => (joint === shared ? sharedTotal : total(joint)));
  const weights = check.candidates.map(
    (candidate, at) => (1 - UNEXPLAINED_PRIOR) * candidate.prior * (likelihoods[at] as number),
  );
  const unexplained = UNEXPLAINED_PRIOR * unexplainedLikelihood(check, prior, asked, likelihoods);
  const all = weights.reduce((sum, w) => sum + w, unexplained);
  const candidates = weights.map((w) => w / all);
  return {
    belief: {
      candidates,
      unexplained: unexplained / all,
      entropy: bits([...candidates, unexplained / all]),
    },
    joints,
  };
};
