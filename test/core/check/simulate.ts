import { ANSWERS, answerShares } from "../../../src/core/check/answers";
import type { Check } from "../../../src/core/check/check";
import type { Fault } from "../../../src/core/check/faults";
import { judge, SURE, type Verdict } from "../../../src/core/check/judge";
import { informationOf, posterior } from "../../../src/core/check/session";
import type { Answer, Hit, Id } from "../../../src/core/model/setup";

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

/** Who answers: the piece hit in, the answer out. */
export type Answerer = (piece: Id) => Answer;
/** Which piece is hit: by the verdict so far, the check and the hits. */
export type Order = (check: Check, next: Id, hits: readonly Hit[]) => Id;

/** Place drawn from shares that bus to 1. */
export const draw = (shares: readonly number[], random: () => number): number => {
  let left = random();
  for (let at = 0; at < shares.length; at++) {
    left -= shares[at] ?? 0;
    if (left < 0) return at;
  }
  return shares.findLastIndex((s) => s > 0);
};

/** The shares of the answers for a fault at a piece. */
const sharesFor = (check: Check, fault: Fault): ((piece: Id) => readonly number[]) => {
  const planned = check.sets.flatMap((s) => s.faults).find((f) => f.kind === "planned") ?? fault;
  const strikes = check.strikes.map((s) => s.piece);
  return (piece) => {
    const at = strikes.indexOf(piece);
    const image = fault.images[at];
    const asPlanned = planned.images[at];
    if (!image || !asPlanned) throw new Error(`No image of ${piece}`);
    return answerShares(image, asPlanned);
  };
};

/** Somebody who hears a fault, calls what lies between two places now this, now that, and presses a wrong button now and then. */
export const hears = (check: Check, fault: Fault, slip: number, random: () => number): Answerer => {
  const shares = sharesFor(check, fault);
  return (piece) => {
    const meant = draw(shares(piece), random);
    const pressed = random() < slip ? (meant + 1 + Math.floor(random() * 4)) % ANSWERS.length : meant;
    return ANSWERS[pressed] ?? "unclear";
  };
};

/** Somebody who never slips and says of every piece what most say of it: no chance at all. */
export const hearsSurely = (check: Check, fault: Fault): Answerer => {
  const shares = sharesFor(check, fault);
  return (piece) => {
    const all = shares(piece);
    return ANSWERS[all.indexOf(Math.max(...all))] ?? "unclear";
  };
};

export const asAsked: Order = (_check, next) => next;
export const frontToBack: Order = (check, _next, hits) =>
  check.strikes[hits.length % check.strikes.length]?.piece ?? "";
/** Every piece once in a shuffled order, then again. */
export const shuffled = (random: () => number): Order => {
  const order: Id[] = [];
  return (check, _next, hits) => {
    if (hits.length % check.strikes.length === 0) {
      order.length = 0;
      for (const { piece } of check.strikes)
        order.splice(Math.floor(random() * (order.length + 1)), 0, piece);
    }
    return order[hits.length % order.length] ?? "";
  };
};

/** Plays one check to its verdict. */
export const play = (
  check: Check,
  answerer: Answerer,
  order: Order,
): { readonly verdict: Verdict; readonly hits: readonly Hit[] } => {
  const hits: Hit[] = [];
  for (;;) {
    const verdict = judge(check, hits);
    if (verdict.kind !== "asking") return { verdict, hits };
    const piece = order(check, verdict.next, hits);
    hits.push({ piece, answer: answerer(piece) });
  }
};

/** The right fault, or the set of faults that cannot be told from it. */
export const isRight = (verdict: Verdict, fault: Fault): boolean =>
  verdict.kind === "found" && verdict.found.set.faults.includes(fault);

/**
 * The yardstick for the hits: entropy of all that is thought possible before the first hit over the largest expected
 * information of the first answer, both by the engine's own weights. It is no bound below which nobody can come: a later
 * answer may tell more than the first, and a check stops before it is wholly sure. Mostly later ones tell less.
 */
export const yardstickOf = (check: Check): number =>
  posterior(check, []).entropy / Math.max(...informationOf(check, []));

/** Most that one answer out of five can tell with such slips, whatever is hit and believed: capacity of that channel, bits. */
const mostOfOneAnswer = (slip: number): number =>
  Math.log2(ANSWERS.length) +
  (1 - slip) * Math.log2(1 - slip) +
  slip * Math.log2(slip / (ANSWERS.length - 1));

/**
 * A strict bound on the mean hits by weight of any way of asking that ends as sure as `SURE`: what must be learnt
 * (Fano's inequality gives what may be left open) over the most that one answer can tell. It knows nothing of the kit,
 * so that no way of asking comes near it.
 */
export const strictBoundOf = (check: Check, slip: number): number => {
  const left = 1 - SURE;
  const open =
    left * Math.log2(check.sets.length) - left * Math.log2(left) - (1 - left) * Math.log2(1 - left);
  return Math.max(0, (posterior(check, []).entropy - open) / mostOfOneAnswer(slip));
};

export interface Tally {
  readonly sessions: number;
  readonly right: number;
  readonly unknown: number;
  readonly unsure: number;
  /** Mean hits with every fault as often as every other. */
  readonly hits: number;
  /** Mean hits with the faults as often as their weights say. */
  readonly weighted: number;
}

/** Somebody for each session, by the fault that is heard. */
export type Drummers = (fault: Fault) => Answerer;

/** Every fault of one kit and law, so many times each. */
export const simulate = (
  check: Check,
  drummers: Drummers,
  times: number,
  order: () => Order,
  onWrong: (fault: Fault, verdict: Verdict, hits: readonly Hit[]) => void = () => {},
): Tally => {
  const faults = check.sets.flatMap((s) => s.faults);
  const weight = faults.reduce((sum, f) => sum + f.weight, 0);
  const tally = { sessions: 0, right: 0, unknown: 0, unsure: 0, hits: 0, weighted: 0 };
  for (const fault of faults) {
    for (let time = 0; time < times; time++) {
      const { verdict, hits } = play(check, drummers(fault), order());
      tally.sessions += 1;
      tally.hits += hits.length;
      tally.weighted += (hits.length * fault.weight) / weight / times;
      if (isRight(verdict, fault)) tally.right += 1;
      else onWrong(fault, verdict, hits);
      if (verdict.kind === "unknown") tally.unknown += 1;
      if (verdict.kind === "found" && !verdict.sure) tally.unsure += 1;
    }
  }
  return { ...tally, hits: tally.hits / tally.sessions };
};
