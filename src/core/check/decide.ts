import { ANSWERS } from "../model/kinds";
import type { Action, Answer, Hit } from "../model/setup";
import { ACTIONS, NO_ACTION } from "./actions";
import type { Candidate, Check, Probe } from "./check";
import type { Confirmation, Decision, FoundSet, Suspect } from "./decision";
import { ENOUGH, ENOUGH_PLANNED, isAskedAbout, leadingOf, TOLD_APART } from "./leading";
import { countedHits, mostHits, posteriorOf } from "./posterior";
import { apartBy, informationOf, type Predictions, predictions } from "./prediction";

/** A verdict is called sure from here on, 0…1; below, likely. Tuned by simulation. */
export const SURE = 0.97;
/** No verdict rests on fewer hits. Tuned by simulation. */
export const LEAST_HITS = 3;
/** Sure enough that it is none of the candidates, 0…1. Tuned by simulation. */
const SURE_UNEXPLAINED = 0.9;
/** A second-best is named from this chance on. A design choice. */
export const CLOSE = 0.02;
/** Where a hit by itself tells so much, no action is thought of: it is trouble for somebody. Tuned by simulation, bits. */
const TELLS_ENOUGH = 1;
/** More faults are not named together while some action tells them apart. A design choice. */
const MOST_NAMED = 3;
/** What tells less than this about the fault is not worth a hit: what is left is named together. Tuned by simulation, bits. */
const TELLS_NOTHING = 0.04;
/** The same is asked at most this often in a row. */
const IN_A_ROW = 2;

const costOf = ({ action }: Probe, last: Hit | undefined): number =>
  (last?.action ?? null) === action ? 1 : action === null ? NO_ACTION.cost : ACTIONS[action].cost;

const likeliest = (chances: readonly number[]): Answer =>
  ANSWERS[chances.indexOf(Math.max(...chances))] ?? "unclear";

/** The hit by itself at which two candidates differ most in their answers. */
const confirmationOf = (
  check: Check,
  predict: Predictions,
  found: number,
  other: number,
): Confirmation | null => {
  let best: Confirmation | null = null;
  let most = TOLD_APART;
  check.probes.forEach((probe, at) => {
    if (probe.action !== null) return;
    const now = predict(found, at).answers;
    const apart = apartBy(predict, found, other, at);
    if (apart < most) return;
    most = apart;
    best = { probe, now: likeliest(now), planned: likeliest(predict(0, at).answers) };
  });
  return best;
};

/** Whether a set holds that nothing is wrong. */
export const isPlanned = ({ suspects }: FoundSet): boolean =>
  suspects.some(({ candidate }) => candidate.fault === "planned");

/**
 * What is to be said after some hits of a check: ask on, or stop with a verdict.
 * @param declined actions that nobody can do here
 */
export const decide = (check: Check, hits: readonly Hit[], declined: readonly Action[] = []): Decision => {
  if (check.obstacle !== null) return { kind: "cannot check", why: check.obstacle };
  if (check.candidates.length < 2) return { kind: "cannot check", why: "nothing-to-tell" };
  const { belief, joints } = posteriorOf(check, hits);
  const counted = countedHits(check, hits);
  const predict = predictions(check, joints);
  const chance = (at: number): number => belief.candidates[at] as number;
  const places = check.probes.map((_, at) => at);
  const allowed = places.filter((at) => {
    const { action } = check.probes[at] as Probe;
    return action === null || !declined.includes(action);
  });

  const last = counted.slice(-IN_A_ROW);
  const isWorn = ({ piece, action }: Probe): boolean =>
    last.length === IN_A_ROW && last.every((h) => h.piece === piece && (h.action ?? null) === action);
  const best = { next: null as Probe | null, worth: 0 };
  const weigh = (probes: readonly number[]): void => {
    for (const at of probes) {
      const probe = check.probes[at] as Probe;
      if (isWorn(probe)) continue;
      const worth = informationOf(check, belief, predict, at) / costOf(probe, counted.at(-1));
      if (best.next && worth <= best.worth) continue;
      best.worth = worth;
      best.next = probe;
    }
  };
  weigh(allowed.filter((at) => check.probes[at]?.action === null));
  if (!best.next || (best.worth < TELLS_ENOUGH && counted.length >= LEAST_HITS))
    weigh(allowed.filter((at) => check.probes[at]?.action !== null));
  const { next } = best;

  const isSpent = best.worth < TELLS_NOTHING && counted.length >= LEAST_HITS;
  const { members, confidence } = leadingOf(check, belief, predict, isSpent ? [] : allowed);
  const [first] = members as [number];
  const over = next === null || isSpent || counted.length >= mostHits(check);
  if (belief.unexplained >= SURE_UNEXPLAINED || (over && belief.unexplained > confidence))
    return {
      kind: "unexplained",
      confidence: belief.unexplained,
      nearest: check.candidates[first] as Candidate,
      belief,
    };
  const isLikely = confidence >= (first === 0 ? ENOUGH_PLANNED : ENOUGH);
  const isWhole = first === 0 ? isAskedAbout(check, belief, members) : members.length <= MOST_NAMED;
  const enough = counted.length >= LEAST_HITS && isLikely && (isWhole || isSpent);
  if (!enough && next && !over) return { kind: "asking", next, belief };

  const suspect = (at: number): Suspect => ({
    candidate: check.candidates[at] as Candidate,
    confidence: chance(at),
  });
  const outside = belief.candidates
    .map((_, at) => at)
    .filter((at) => !members.includes(at))
    .sort((a, b) => chance(b) - chance(a))[0];
  const tells = (action: Action): boolean =>
    places.some(
      (at) =>
        check.probes[at]?.action === action &&
        members.some((member) => apartBy(predict, first, member, at) >= TOLD_APART),
    );
  const against = members.includes(0) ? outside : 0;
  return {
    kind: "found",
    found: { suspects: members.map(suspect), confidence },
    sure: confidence >= SURE,
    ranOut: !enough,
    confirmation: against === undefined ? null : confirmationOf(check, predict, first, against),
    second: outside !== undefined && chance(outside) >= CLOSE ? suspect(outside) : null,
    telling: check.actions.filter(tells),
    belief,
  };
};

/** How far a check has come, 0…1: the share of the first uncertainty that is gone; 1 exactly when there is a verdict. */
export const progressOf = (check: Check, hits: readonly Hit[], declined: readonly Action[] = []): number => {
  const decision = decide(check, hits, declined);
  if (decision.kind !== "asking") return 1;
  return Math.max(0, 1 - decision.belief.entropy / posteriorOf(check, []).belief.entropy);
};
