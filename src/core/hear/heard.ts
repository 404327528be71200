import type { Id } from "../model/setup";
import type { Db, Pan, Sides } from "../model/units";
import type { MeasuredHit } from "./hit";
import type { NamedFault } from "./states";

/** A state of the path with its chance. */
export interface HeardSuspect extends NamedFault {
  /** 0…1. */
  readonly confidence: number;
  /** Of a wrong pan, the pan that it seems to have; null for every other fault. */
  readonly pan: Pan | null;
  /** Of a side trim, how much louder the right side is against the left than planned, dB; null for every other fault. */
  readonly trim: Db | null;
}

/** What was heard once. */
export interface HeardDrum {
  /** The drum that was asked for; null in free mode. */
  readonly piece: Id | null;
  /** Null where it was hit and nothing was heard. */
  readonly hit: MeasuredHit | null;
}

/** What a drum should bring, and what it brought. */
export interface DrumResult {
  readonly piece: Id;
  /** Right over left as planned, dB, with the spread that unknown bleed gives it, and the correlation. */
  readonly expected: { readonly difference: Db; readonly spread: Db; readonly correlation: number };
  /** Mean of its hits; null before the first. */
  readonly measured: {
    readonly difference: Db;
    readonly levels: Sides<Db>;
    readonly correlation: number | null;
  } | null;
  /** How often it was heard. */
  readonly hits: number;
  /** False where what was measured is not what was expected. Null before the first hit. */
  readonly asPlanned: boolean | null;
}

/** What is to be said after some hits. */
export type HearingVerdict =
  /** Hit on: it cannot be said yet. */
  | { readonly kind: "asking"; readonly next: Id }
  /** Nothing is wrong, but for what is open: no hit tells that from as planned. */
  | { readonly kind: "planned"; readonly confidence: number; readonly open: readonly HeardSuspect[] }
  /** The likeliest first, with what no hit tells from it. `sure` is false where the hits ran out before. */
  | { readonly kind: "found"; readonly suspects: readonly HeardSuspect[]; readonly sure: boolean }
  /** Nothing that is known explains it; the nearest. */
  | { readonly kind: "unexplained"; readonly confidence: number; readonly nearest: HeardSuspect };

/** All that is believed after some hits. */
export interface HearingState {
  readonly verdict: HearingVerdict;
  /** The drum of each entry, in order: as asked, or as the plan allows to attribute it; null where it does not. */
  readonly attributed: readonly (Id | null)[];
  /** Hits that no drum could be given. */
  readonly unknown: number;
  /** In the order of the kit. */
  readonly drums: readonly DrumResult[];
  /** Every state with a chance of 1 % or more, the likeliest first. */
  readonly suspects: readonly HeardSuspect[];
}
