import type { Check } from "./check";
import type { Belief } from "./posterior";
import { apartBy, isElsewhere, type Predictions } from "./prediction";

/** Likely enough that a fault is found to stop asking, 0…1. Tuned by simulation. */
export const ENOUGH = 0.89;
/** Likely enough that nothing is wrong to stop asking, 0…1, once everything was asked about. Tuned by simulation. */
export const ENOUGH_PLANNED = 0.9;
/** A fault was asked about when the answers fit it so much worse than "planned", whatever its weight. A design choice. */
export const ASKED_ABOUT = 0.1;
/** Two candidates are told apart only if for some probe this share of the answers differs. Tuned by simulation. */
export const TOLD_APART = 0.5;
/** What is not told from the likeliest is named from this share of its chance on. A design choice. */
const NAMED = 0.04;

/** What is found, and how sure: members are the likeliest that together make up as much as is sure enough. */
export interface Leading {
  readonly members: readonly number[];
  readonly confidence: number;
}

/**
 * The likeliest candidate with what cannot be told from it: faults by hits alone, "planned" from a fault by every action
 * as well, for "nothing is wrong" is said only when all was asked that could tell.
 * @param allowed probes that could still be asked: where there is none, nothing more is told apart
 */
export const leadingOf = (
  check: Check,
  belief: Belief,
  predict: Predictions,
  allowed: readonly number[],
): Leading => {
  const chance = (at: number): number => belief.candidates[at] as number;
  const order = belief.candidates.map((_, at) => at).sort((a, b) => chance(b) - chance(a));
  const [first] = order as [number];
  const byHit = allowed.filter((probe) => check.probes[probe]?.action === null);
  const near = order.filter((at) => chance(at) >= NAMED * chance(first));
  const alike = near.filter((at) => {
    const probes = first === 0 || at === 0 ? allowed : byHit;
    // What sounds as planned needs no look: with many channels that is nearly everything.
    const isTold = (probe: number): boolean =>
      !(first === 0 && isElsewhere(check, at, probe)) && apartBy(predict, first, at, probe) >= TOLD_APART;
    return at === first || !probes.some(isTold);
  });
  const confidence = alike.reduce((sum, at) => sum + chance(at), 0);
  let named = 0;
  const members = alike.filter((at) => {
    const isNeeded = named < ENOUGH * confidence || first === 0;
    named += chance(at);
    return isNeeded;
  });
  return { members, confidence };
};

/** Whether the answers speak against everything that is not named beside "planned". */
export const isAskedAbout = (check: Check, belief: Belief, members: readonly number[]): boolean => {
  const fits = check.candidates.map(({ prior }, at) => (belief.candidates[at] as number) / prior);
  return fits.every((fit, at) => members.includes(at) || fit <= ASKED_ABOUT * (fits[0] as number));
};
