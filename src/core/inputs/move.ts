import type { Id } from "../model/setup";

/** Why a feed may be freed. */
export type FreeReason =
  /** It only repeats another input. */
  | "copy"
  /** Its source is muted. */
  | "muted"
  /** It is switched off. */
  | "off"
  /** Its source is inside a patched sum too. */
  | "twice";

/** One way to free inputs. `inputs` are the indexes from 0 of everything that takes part. */
export type Move =
  | {
      readonly move: "free";
      readonly why: FreeReason;
      readonly of: "channel" | "bus";
      readonly id: Id;
      readonly inputs: readonly number[];
    }
  /** A source of two channels, or a pair, goes to mono in the slot it keeps. */
  | {
      readonly move: "fold";
      readonly of: "channel" | "bus";
      readonly id: Id;
      readonly keeps: number;
      readonly inputs: readonly number[];
    }
  /** A source leaves its slots and goes into a sum that is patched. */
  | { readonly move: "into"; readonly channel: Id; readonly bus: Id; readonly inputs: readonly number[] }
  /** Sources go into a new mono sum, which takes the first of their slots. */
  | { readonly move: "together"; readonly channels: readonly Id[]; readonly inputs: readonly number[] };

/** How many inputs a move frees. */
export const freedBy = (move: Move): number =>
  move.inputs.length - (move.move === "fold" || move.move === "together" ? 1 : 0);
