import { ANSWERS } from "../model/kinds";
import type { Candidate, Check } from "./check";
import { type Belief, bits } from "./posterior";
import { differenceOf, type Joint, type ProbeChances, predicted } from "./responses";

/** Below this chance a candidate adds nothing to what can be learnt. */
const NEGLIGIBLE = 1e-4;

/** Predicted answers of one candidate to one probe. */
export interface Prediction {
  readonly answers: readonly number[];
  /** What stays unknown of the answer when the candidate is known, bits. */
  readonly noise: number;
}

/** Whether a channel's fault changes nothing at a probe. */
export const isElsewhere = ({ candidates }: Check, candidate: number, probe: number): boolean => {
  const { channel, chances } = candidates[candidate] as Candidate;
  return channel !== null && chances[probe] === (candidates[0] as Candidate).chances[probe];
};

/**
 * Predicted answers of candidates to probes, made when asked for and once each. At drums that do not sound through it, a
 * channel's fault is taken to be answered as "planned" is: what its own drum told of the listener is left out there.
 */
export const predictions = (check: Check, joints: readonly Joint[]) => {
  const made = new Map<Joint, Map<ProbeChances, Prediction>>();
  return (candidate: number, probe: number): Prediction => {
    const joint = joints[isElsewhere(check, candidate, probe) ? 0 : candidate] as Joint;
    const chances = check.candidates[candidate]?.chances[probe] as ProbeChances;
    const ofJoint = made.get(joint) ?? new Map<ProbeChances, Prediction>();
    made.set(joint, ofJoint);
    const known = ofJoint.get(chances);
    if (known) return known;
    const answers = predicted(joint, chances);
    const prediction = { answers, noise: bits(answers) };
    ofJoint.set(chances, prediction);
    return prediction;
  };
};
/** The predictions of one moment of a check. */
export type Predictions = ReturnType<typeof predictions>;

/** Expected information of one more answer to a probe about the fault, bits. */
export const informationOf = (check: Check, belief: Belief, predict: Predictions, probe: number): number => {
  const mixed = ANSWERS.map(() => 0);
  let noise = 0;
  let all = 0;
  const add = (prediction: Prediction, chance: number): void => {
    for (let answer = 0; answer < mixed.length; answer++)
      mixed[answer] = (mixed[answer] as number) + chance * (prediction.answers[answer] as number);
    noise += chance * prediction.noise;
    all += chance;
  };
  let elsewhere = 0;
  for (let at = 0; at < belief.candidates.length; at++) {
    const chance = belief.candidates[at] as number;
    if (chance < NEGLIGIBLE) continue;
    if (isElsewhere(check, at, probe)) elsewhere += chance;
    else add(predict(at, probe), chance);
  }
  add(predict(0, probe), elsewhere);
  return all * bits(mixed.map((m) => m / all)) - noise;
};

/** Share of the answers to a probe by which two candidates differ, 0…1. */
export const apartBy = (predict: Predictions, a: number, b: number, probe: number): number =>
  differenceOf(predict(a, probe).answers, predict(b, probe).answers);
