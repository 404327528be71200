import type { Id, OwnWish, SendTap, ShareWish, StereoWish } from "../model/setup";
import type { AllocationKind, FamilyId } from "./rules";

/** Monitor inputs that a feed takes: one, or two neighbours, odd and even. */
export type Width = 1 | 2;

/** What a channel asks of the allocation. */
export interface AllocationRule {
  readonly own: OwnWish;
  readonly stereo: StereoWish;
  /** Whether its pan is worth a stereo bus even where the channel itself is mono. */
  readonly panned: boolean;
  /** Whom it may share an input with; other channels of one instrument are part of its family. */
  readonly shares: ShareWish;
  /** Who must hear it: every musician, or only those who ask for it. */
  readonly reach: "all" | "asked";
  /** Whether it may be left out where nobody asks for it. */
  readonly mayLeaveOut: boolean;
  /** Whether it may lie in a bus that is swapped although it must keep L/R. */
  readonly maySwap: boolean;
  /** Where its send is taken when it lies in a bus. */
  readonly send: SendTap;
}

/** What is decided by hand for a channel. */
export type Pin =
  /** Alone on one input or two; `input` is the first of them, from 1, null for any. */
  | { readonly as: "own"; readonly width: Width; readonly input: number | null }
  /** In a bus of its instrument, section or family. */
  | { readonly as: "shared" }
  /** In the fold-back bus. */
  | { readonly as: "fold-back" }
  | { readonly as: "out" };

/** How a channel comes into the inputs: by itself, or in a bus. */
export type Current =
  | { readonly as: "own"; readonly width: Width }
  | { readonly as: "bus"; readonly bus: BusId; readonly width: Width };

/** One thing to hear. */
export interface AllocationChannel {
  readonly id: Id;
  readonly name: string;
  readonly kind: AllocationKind;
  readonly width: Width;
  /** Left has to stay left. */
  readonly keepsSides: boolean;
  /** Channel number at the desk, for the order; null where it has none. */
  readonly number: number | null;
  /** A part of the family that stays together (one of two kits, the trumpets); null for the kind's own. */
  readonly section: string | null;
  /** Channels with the same word here are microphones and lines of one instrument; null where it is the only one. */
  readonly instrument: string | null;
  /** The musician who plays or sings it; null where that is nobody with a mixer. */
  readonly player: Id | null;
  /** Musicians who must hear it, besides those its rule names. */
  readonly wantedBy: readonly Id[];
  /** Monitor inputs that carry it now, from 1. */
  readonly currentInputs: readonly number[];
  /** How it comes in there; null where it does not, or in a bus that no plan has. */
  readonly current: Current | null;
  /** What the user changed of the kind's rule. */
  readonly rule: Partial<AllocationRule>;
  readonly pin: Pin | null;
}

/** Somebody with a mixer of their own. */
export interface AllocationMusician {
  readonly id: Id;
  readonly name: string;
  /** Whether their mixer or pack gives both ears the same. */
  readonly mono: boolean;
}

/** What is decided by hand for a bus. */
export interface BusPin {
  readonly bus: BusId;
  readonly width: Width;
  /** The first of its inputs, from 1; null for any. */
  readonly input: number | null;
}

/** What goes where? */
export interface AllocationProblem {
  /** How many monitor inputs there are. */
  readonly inputs: number;
  /** Inputs that are to stay as they are, from 1. */
  readonly reserved: readonly number[];
  readonly channels: readonly AllocationChannel[];
  readonly musicians: readonly AllocationMusician[];
  readonly busPins: readonly BusPin[];
  /** Stereo buses that go in swapped. */
  readonly swapped: readonly BusId[];
}

/** Name of a bus within a problem: see `busId`. */
export type BusId = string;

/** How much a bus holds together, narrowest first. The fold-back bus takes whatever is left. */
export type BusLevel = "instrument" | "section" | "family" | "fold-back";

/** What a bus is of. */
export interface BusOf {
  readonly id: BusId;
  readonly level: BusLevel;
  readonly family: FamilyId;
  readonly section: string | null;
  readonly instrument: string | null;
}

/** The family whose bus takes what is left of the others. */
export const FOLD_BACK = "fold-back" satisfies FamilyId;

const escaped = (word: string): string => word.replaceAll("%", "%25").replaceAll("/", "%2F");

/** The id of the bus of a family, of a section in it, or of an instrument in that: "drums", "drums/Kit 2", "drums//Kick". */
export const busId = (family: FamilyId, section?: string | null, instrument?: string | null): BusId =>
  [
    family,
    ...(section || instrument ? [escaped(section ?? "")] : []),
    ...(instrument ? [escaped(instrument)] : []),
  ].join("/");

const unescaped = (word: string | undefined): string | null =>
  word?.replaceAll("%2F", "/").replaceAll("%25", "%") || null;

/** What a bus is of, by its id. */
export const busOfId = (id: BusId): BusOf => {
  const [family, ...within] = id.split("/");
  const [section, instrument] = within.map(unescaped);
  const level = instrument
    ? "instrument"
    : section
      ? "section"
      : family === FOLD_BACK
        ? "fold-back"
        : "family";
  return { id, level, family: family as FamilyId, section: section ?? null, instrument: instrument ?? null };
};
