import type { Bus, Channel, Id, Listener, Send, Setup } from "../model/setup";
import type { Db, Pan, Sides } from "../model/units";
import type { RoundedPan } from "../pan/notation";
import type { Tally } from "../stereo/placement";
import type { Badness } from "./badness";

/** A figure for each pan (as it is, mirrored) and each order in the monitor inputs (as it is, swapped). */
export type ByPanAndOrder<T> = readonly [
  asIs: readonly [asIs: T, swapped: T],
  mirrored: readonly [asIs: T, swapped: T],
];

/** One channel that sounds in the bus, with what each pan and order makes of it: right over left, dB; null when silent. */
export interface Voice {
  readonly channel: Channel;
  readonly send: Send;
  /** Pan in force now. */
  readonly pan: Pan;
  /** The pan as far on the other side, on the desk's steps. */
  readonly mirrored: RoundedPan;
  /** The channel pan as far on the other side, on the desk's steps. */
  readonly channelMirrored: RoundedPan;
  /** At the ears of who hears L and R apart. */
  readonly ears: ByPanAndOrder<Db | null>;
  /** At the ears of who hears both in one. */
  readonly inOne: ByPanAndOrder<Db | null>;
  /** The same two with the bus folded to mono. */
  readonly folded: { readonly ears: Db | null; readonly inOne: Db | null };
  /** How far the louder ear gets from an exact mirror, or from no change where two exchanges cancel, dB. */
  readonly residual: ByPanAndOrder<Db>;
  /** Right over left at FOH with the channel pan as it is and mirrored, dB. */
  readonly foh: Sides<Db>;
  /** How far FOH gets from an exact mirror with the channel pan mirrored, dB. */
  readonly fohResidual: Db;
}

/** A bus with everything that recommendations for it are computed from. */
export interface Situation {
  readonly setup: Setup;
  readonly bus: Bus;
  /** L and R reach the listeners in swapped order now. */
  readonly swapped: boolean;
  readonly voices: readonly Voice[];
  /** Who hears the bus. */
  readonly members: readonly Listener[];
  /** Who hears something else: FOH, another bus, nothing. */
  readonly others: readonly Listener[];
}

/** For whom and within which bounds a recommendation is searched. */
export interface Premises {
  /** Whose image matters most. */
  readonly first: Id;
  /** No channel pan may change. */
  readonly fohFixed: boolean;
  /** Monitor inputs that may be taken. */
  readonly freeInputs: number;
  /** For whom the kit is taken to stand the other way round than in the setup. */
  readonly turned: readonly Id[];
}

/** Which pans are set: none, sends of this bus, or channel pans with everything that follows them. */
export type Panning = "keep" | "bus" | "foh";

/** Voices whose pan is mirrored, by their index, rising. */
export type Mirrored = readonly number[];

/** What is done with the bus itself; everybody who hears it gets it. */
export interface BusChange {
  readonly swap: boolean;
  readonly fold: boolean;
  readonly panning: Panning;
  /** Empty where no pan is set. */
  readonly mirrored: Mirrored;
}

/** What is done for one listener alone: nothing, a flip at their own mixer, a copy of the bus as it is now. */
export type ListenerChoice =
  | { readonly does: "nothing" }
  | { readonly does: "flip" }
  | { readonly does: "own bus"; readonly swap: boolean; readonly mirrored: Mirrored };

/** A choice for one listener with what comes of it. */
export interface RecommendOption {
  readonly choice: ListenerChoice;
  readonly badness: Badness;
  /** Further monitor inputs it takes. */
  readonly inputs: number;
  /** Things to do, each once. */
  readonly moves: number;
  readonly residual: Db;
}

/** What recommendations are ranked by, smaller is better, in the order of weight. */
export interface Criteria {
  /** For the listener who matters most. */
  readonly first: Badness;
  /** For all others together. */
  readonly others: Badness;
  /** Further monitor inputs. */
  readonly inputs: number;
  /** Things to do: a swap, a fold, a pan, a flip; a copy of a bus and its patch are two. */
  readonly moves: number;
  /** How far the louder ear is from an exact mirror of what it was, dB, at the worst channel and listener. */
  readonly residual: Db;
}

/** One way to do it: a change of the bus, and a choice for each member in their order. */
export interface RankedPlan extends Criteria {
  readonly change: BusChange;
  readonly choices: readonly ListenerChoice[];
}

/** What is done for one listener alone, with channels by their ids. */
export type Own =
  | { readonly listener: Id; readonly does: "flip" }
  | {
      readonly listener: Id;
      readonly does: "own bus";
      readonly swap: boolean;
      readonly mirrored: readonly Id[];
    };

/** What a recommendation consists of, with channels by their ids. */
export interface Parts {
  readonly swap: boolean;
  readonly fold: boolean;
  readonly panning: Panning;
  readonly mirrored: readonly Id[];
  readonly own: readonly Own[];
}

/** What one listener gets once a recommendation is applied. */
export interface ListenerOutcome {
  readonly listener: Id;
  readonly tally: Tally;
}

/** A pan that is set. */
export interface PanMove {
  readonly channel: Id;
  readonly from: Pan;
  /** On the desk's steps. */
  readonly to: Pan;
  /** It followed the channel pan before. */
  readonly followed: boolean;
  /** What rounding to the desk's steps costs, dB. */
  readonly error: Db;
}

/** One thing to do. */
export type Step =
  /** L and R change places; `inputs` are those of L and R afterwards, null when they have none. */
  | { readonly step: "swap"; readonly bus: Id; readonly inputs: Sides<number> | null }
  | { readonly step: "fold"; readonly bus: Id }
  | ({ readonly step: "pan"; readonly bus: Id } & PanMove)
  | ({ readonly step: "channel pan" } & PanMove)
  | { readonly step: "flip"; readonly listener: Id; readonly flipped: boolean }
  /** A copy of a bus for one listener alone, with the inputs of its L and R and what is panned in it. */
  | {
      readonly step: "own bus";
      readonly listener: Id;
      readonly of: Id;
      readonly copy: Bus;
      readonly inputs: Sides<number>;
      readonly trims: Sides<Db>;
      readonly off: Sides<boolean>;
      readonly pans: readonly PanMove[];
    };

/** One thing to know of a recommendation beside its steps. */
export type Note =
  /** Channels that must keep L/R lose it for some listeners, and had it before. */
  | { readonly code: "sides lost"; readonly channels: readonly Id[]; readonly listeners: readonly Id[] }
  /** FOH hears these on the other side. */
  | { readonly code: "foh"; readonly channels: readonly Id[] }
  /** L and R of the bus are trimmed apart by so much. "bus": the trims change ears; "pans": they stay, and that costs `residual`. */
  | { readonly code: "side trims"; readonly by: "bus" | "pans"; readonly apart: Db; readonly residual: Db }
  /** The monitor inputs of L and R are trimmed apart by so much and stay so. */
  | { readonly code: "input trims"; readonly apart: Db; readonly residual: Db }
  /** The worst rounding to the desk's steps. */
  | { readonly code: "rounding"; readonly channel: Id; readonly error: Db }
  /** One side has inverted polarity. */
  | { readonly code: "polarity"; readonly by: "bus" | "pans" }
  /** One side has processing of its own. */
  | { readonly code: "uneven sides"; readonly by: "bus" | "pans" }
  /** Stereo channels whose pan is mirrored, which moves their balance and exchanges nothing. */
  | { readonly code: "balance"; readonly channels: readonly Id[] }
  /** Everybody on the bus gets the same in both ears. */
  | { readonly code: "folded" };

/** One way to put a bus right. */
export interface Recommendation {
  /** "leave" when nothing is done; the same parts have the same. */
  readonly id: string;
  readonly parts: Parts;
  /** What it was ranked by. */
  readonly criteria: Criteria;
  /** Of every listener, in the setup's order. */
  readonly outcomes: readonly ListenerOutcome[];
  readonly steps: readonly Step[];
  /** Channels that FOH hears elsewhere; empty where FOH stays as it is. */
  readonly foh: readonly Id[];
  readonly notes: readonly Note[];
}

/** A single fact taken to be otherwise. */
export type Premise =
  | { readonly if: "turned"; readonly listener: Id }
  | { readonly if: "first"; readonly listener: Id }
  | { readonly if: "without"; readonly channels: readonly Id[] }
  | { readonly if: "FOH may change" }
  | { readonly if: "FOH must not change" }
  | { readonly if: "inputs"; readonly more: number }
  | { readonly if: "free inputs may be used" }
  | { readonly if: "free inputs must not be used" };

/** A fact that would make another recommendation the best, and which. */
export interface WhatIf {
  readonly premise: Premise;
  readonly id: string;
  readonly parts: Parts;
}
