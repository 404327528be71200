import type { Channel, Id, Setup } from "../../core/model/setup";
import type { Command } from "../../document/command";

/** Something that is set on several channels at once: one of a few values. */
export interface BulkAction {
  readonly id: string;
  /** What is set: "Kind". */
  readonly label: string;
  readonly options: readonly (readonly [value: string, name: string])[];
  /** The value in force on a channel, one of the options. */
  readonly valueOf: (channel: Channel, setup: Setup) => string;
  /** Sets a value on all of them, as one step. */
  readonly apply: (ids: readonly Id[], value: string) => Command;
}

/** What can be set, at least one thing; that is the first that is offered. */
export type BulkActions = readonly [BulkAction, ...BulkAction[]];
