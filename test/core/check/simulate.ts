import type { Candidate, Check, Probe } from "../../../src/core/check/check";
import { decide } from "../../../src/core/check/decide";
import type { Decision } from "../../../src/core/check/decision";
import { PEOPLE, type Person } from "../../../src/core/check/people";
import type { Chances } from "../../../src/core/check/responses";
import { ANSWERS } from "../../../src/core/model/kinds";
import type { Action, Answer, Hit } from "../../../src/core/model/setup";

/** Numbers 0…1 from a seed: mulberry32, a public-domain generator of 32 bits. */
export const seeded = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
};

/** Who answers: what is asked in, the answer out. */
export type Answerer = (probe: Probe) => Answer;

/** Place drawn from shares that bus to 1. */
export const draw = (shares: readonly number[], random: () => number): number => {
  let left = random();
  for (let at = 0; at < shares.length; at++) {
    left -= shares[at] ?? 0;
    if (left < 0) return at;
  }
  return shares.findLastIndex((s) => s > 0);
};

const placeIn = (check: Check, { piece, action }: Probe): number => {
  const at = check.probes.findIndex((p) => p.piece === piece && p.action === action);
  if (at < 0) throw new Error(`cannot be asked: ${piece} ${action}`);
  return at;
};

const sharesBy = (list: Chances, person: number): readonly number[] =>
  ANSWERS.map((_, answer) => list[answer * PEOPLE.length + person] as number);

/** The first simulated drummer: somebody of the engine's own people, who follows the engine's own model of answers. */
export const hears = (check: Check, candidate: Candidate, random: () => number): Answerer => {
  const person = draw(
    PEOPLE.map((p) => p.prior),
    random,
  );
  const level = draw(check.overheads, random);
  return (probe) => {
    const list = candidate.chances[placeIn(check, probe)]?.[level] as Chances;
    return ANSWERS[draw(sharesBy(list, person), random)] ?? "unclear";
  };
};

/**
 * A practised ear without an offset that says what cannot be placed, unless said otherwise, and says of every drum what
 * such people say most. No chance at all.
 */
export const hearsSurely = (check: Check, candidate: Candidate, who: Partial<Person> = {}): Answerer => {
  const { threshold, offset, admits } = { threshold: 2, offset: 0, admits: true, ...who };
  const person = PEOPLE.findIndex(
    (p) => p.threshold === threshold && p.offset === offset && p.admits === admits,
  );
  return (probe) => {
    const shares = sharesBy(candidate.chances[placeIn(check, probe)]?.[0] as Chances, person);
    return ANSWERS[shares.indexOf(Math.max(...shares))] ?? "unclear";
  };
};

/** A hit as it is kept. */
export const hitOf = ({ piece, action }: Probe, answer: Answer): Hit =>
  action === null ? { piece, answer } : { piece, answer, action };

/** Plays one check to its verdict. */
export const play = (
  check: Check,
  answerer: Answerer,
  declined: readonly Action[] = [],
): { readonly decision: Decision; readonly hits: readonly Hit[] } => {
  const hits: Hit[] = [];
  for (;;) {
    const decision = decide(check, hits, declined);
    if (decision.kind !== "asking") return { decision, hits };
    hits.push(hitOf(decision.next, answerer(decision.next)));
  }
};

/** A candidate of a check by its id. */
export const candidateOf = (check: Check, id: string): Candidate => {
  const candidate = check.candidates.find((c) => c.id === id);
  if (!candidate) throw new Error(`no candidate ${id}`);
  return candidate;
};

/** Ids of what is found, the likeliest first; the kind of decision where nothing is. */
export const foundIds = (decision: Decision): readonly string[] =>
  decision.kind === "found" ? decision.found.suspects.map((s) => s.candidate.id) : [decision.kind];

/** Whether what was wrong is found, alone or named with what cannot be told from it. */
export const isRight = (decision: Decision, candidate: Candidate): boolean =>
  foundIds(decision).includes(candidate.id);
