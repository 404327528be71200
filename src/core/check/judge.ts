import type { Answer, Hit, Id } from "../model/setup";
import { ANSWERS } from "./answers";
import type { Check, FaultSet } from "./check";
import { placeOf } from "./elsewise";
import { type Belief, countedHits, mostHits, nextHit } from "./session";

/** A set of faults and how sure it is, 0…1. */
export interface Suspect {
  readonly set: FaultSet;
  readonly confidence: number;
}

/** A hit that proves a verdict: what it brings as things are, and what it must bring as planned. */
export interface Proof {
  readonly piece: Id;
  readonly now: Answer;
  readonly planned: Answer;
}

/** What is to be said after some hits. */
export type Verdict =
  | { readonly kind: "cannot check"; readonly why: string }
  | { readonly kind: "asking"; readonly next: Id; readonly belief: Belief }
  | {
      readonly kind: "found";
      readonly found: Suspect;
      /** False when the hits ran out before it was sure. */
      readonly sure: boolean;
      /** Each fault of the set with what to do about it. */
      readonly remedies: readonly string[];
      /** Null when no hit tells the found set from the second-best. */
      readonly proof: Proof | null;
      /** The second-best, if it is close. */
      readonly second: Suspect | null;
      readonly belief: Belief;
    }
  | {
      readonly kind: "unknown";
      /** How sure that it is none of the list, 0…1. */
      readonly confidence: number;
      /** What was heard, as it was given. */
      readonly heard: readonly Hit[];
      /** The known state that resembles it most. */
      readonly nearest: FaultSet;
      readonly belief: Belief;
    };

/** Sure enough to stop, 0…1. Tuned by simulation. */
export const SURE = 0.88;
/** Sure enough to stop where an answer speaks against the verdict, 0…1: that answer may be no slip. Tuned by simulation. */
export const SURE_DESPITE = 0.95;
/** An answer speaks against a fault that would bring it about less often than this. A design choice: about a slip. */
const AGAINST = 0.05;
/** No verdict rests on fewer hits: with two, one ear's way of calling things "middle" could decide. Tuned by simulation. */
export const LEAST_HITS = 3;
/** Sure enough that it is none of the list, 0…1. Tuned by simulation. */
export const SURE_UNKNOWN = 0.9;
/** A second-best is named from this chance on. A design choice. */
export const CLOSE = 0.02;

const likeliest = (chances: readonly number[]): Answer =>
  ANSWERS[chances.indexOf(Math.max(...chances))] ?? "unclear";

/** The strike at which two sets differ most in their answers. */
const proofOf = (check: Check, found: FaultSet, other: FaultSet, planned: FaultSet): Proof | null => {
  let best: Proof | null = null;
  let most = 0;
  check.strikes.forEach(({ piece }, at) => {
    const row = found.chances[at] ?? [];
    const apart = row.reduce((sum, p, a) => sum + Math.abs(p - (other.chances[at]?.[a] ?? 0)), 0);
    if (apart <= most) return;
    most = apart;
    best = { piece, now: likeliest(row), planned: likeliest(planned.chances[at] ?? []) };
  });
  return best;
};

const suspects = (check: Check, belief: Belief): Suspect[] =>
  check.sets
    .map((set, at) => ({ set, confidence: belief.sets[at] ?? 0 }))
    .sort((a, b) => b.confidence - a.confidence);

/** Whether a set of faults holds "as planned". */
export const isPlanned = (set: FaultSet): boolean => set.faults.some((f) => f.kind === "planned");

const speaksAgainst = (check: Check, set: FaultSet, { piece, answer }: Hit): boolean => {
  const strike = check.strikes.findIndex((s) => s.piece === piece);
  return (set.chances[strike]?.[placeOf(answer)] ?? 1) < AGAINST;
};

/** What is to be said after some hits of a check: ask on, or stop with a verdict. */
export const judge = (check: Check, hits: readonly Hit[]): Verdict => {
  if (check.obstacle !== null) return { kind: "cannot check", why: check.obstacle };
  const { belief, next } = nextHit(check, hits);
  const counted = countedHits(check, hits);
  const [found, second] = suspects(check, belief);
  const planned = check.sets.find(isPlanned);
  if (!found || !second || !planned)
    return { kind: "cannot check", why: "No hit can tell one fault from another here." };
  const over = next === null || counted.length >= mostHits(check);
  if (belief.unknown >= SURE_UNKNOWN || (over && belief.unknown > found.confidence)) {
    return { kind: "unknown", confidence: belief.unknown, heard: hits, nearest: found.set, belief };
  }
  const enough = counted.some((hit) => speaksAgainst(check, found.set, hit)) ? SURE_DESPITE : SURE;
  const sure = found.confidence >= enough && counted.length >= LEAST_HITS;
  if (!sure && !over) return { kind: "asking", next, belief };
  return {
    kind: "found",
    found,
    sure,
    remedies: found.set.faults.map((f) => f.remedy),
    proof: proofOf(check, found.set, found.set === planned ? second.set : planned, planned),
    second: second.confidence >= CLOSE ? second : null,
    belief,
  };
};
