import type { Id } from "../setup";

/** Why a feed may be freed. */
export type FreeReason =
  /** It only repeats another slot. */
  | "copy"
  /** Its source is muted. */
  | "muted"
  /** It is switched off. */
  | "off"
  /** Its source is inside a patched sum too. */
  | "twice";

/** One way to free slots. `slots` are the indexes from 0 of everything that takes part. */
export type Move =
  | {
      readonly move: "free";
      readonly why: FreeReason;
      readonly of: "source" | "sum";
      readonly id: Id;
      readonly slots: readonly number[];
    }
  /** A source of two channels, or a pair, goes to mono in the slot it keeps. */
  | {
      readonly move: "fold";
      readonly of: "source" | "sum";
      readonly id: Id;
      readonly keeps: number;
      readonly slots: readonly number[];
    }
  /** A source leaves its slots and goes into a sum that is patched. */
  | { readonly move: "into"; readonly source: Id; readonly sum: Id; readonly slots: readonly number[] }
  /** Sources go into a new mono sum, which takes the first of their slots. */
  | { readonly move: "together"; readonly sources: readonly Id[]; readonly slots: readonly number[] };

/** How many slots a move frees. */
export const freedBy = (move: Move): number =>
  move.slots.length - (move.move === "fold" || move.move === "together" ? 1 : 0);
