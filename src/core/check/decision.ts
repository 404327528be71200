import type { Action, Answer } from "../model/setup";
import type { Candidate, Obstacle, Probe } from "./check";
import type { Belief } from "./posterior";

/** A candidate and its chance, 0…1. */
export interface Suspect {
  readonly candidate: Candidate;
  readonly confidence: number;
}

/** A hit that confirms a verdict: what it brings as things are, and what it must bring as planned. */
export interface Confirmation {
  readonly probe: Probe;
  readonly now: Answer;
  readonly planned: Answer;
}

/** What no answer tells apart, for this listener: the likeliest first. */
export interface FoundSet {
  readonly suspects: readonly Suspect[];
  readonly confidence: number;
}

/** What is to be said after some hits. */
export type Decision =
  | { readonly kind: "cannot check"; readonly why: Obstacle | "nothing-to-tell" }
  | { readonly kind: "asking"; readonly next: Probe; readonly belief: Belief }
  | {
      readonly kind: "found";
      readonly found: FoundSet;
      /** False when it is only likely. */
      readonly sure: boolean;
      /** The hits ran out before it was likely enough. */
      readonly ranOut: boolean;
      /** Null when no hit by itself tells the found fault from as planned, or, as planned, from the second-best. */
      readonly confirmation: Confirmation | null;
      /** The likeliest outside the set, if it is close. */
      readonly second: Suspect | null;
      /** Actions that would tell some of the set apart. */
      readonly telling: readonly Action[];
      readonly belief: Belief;
    }
  | {
      readonly kind: "unexplained";
      /** How sure that it is none of the candidates, 0…1. */
      readonly confidence: number;
      /** The candidate that resembles it most. */
      readonly nearest: Candidate;
      readonly belief: Belief;
    };
