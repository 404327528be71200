import type { Action, Hit, Id, Setup } from "../core/model/setup";

/** Names the file format; the first thing a reader looks at. */
export const FORMAT = "hatside-setup";
/** Version of the setup file that this code writes. */
export const VERSION = 3;

/** A check at the kit under way: kept with the setup, so that a locked phone loses nothing. */
export interface CheckSession {
  readonly listener: Id;
  readonly hits: readonly Hit[];
  /** Actions that nobody can do here; absent while there is none. */
  readonly declined?: readonly Action[];
}

/** A setup as it is kept, exported and shared. Documented in DEVELOPERS.md. */
export interface SetupFile extends Setup {
  readonly format: typeof FORMAT;
  readonly version: typeof VERSION;
  readonly name: string;
  readonly note: string;
  /** Invented data, shown as such. */
  readonly example: boolean;
  readonly check: CheckSession | null;
  /** Inputs ticked on the line check, by input index: heard or not. */
  readonly lineCheck: { readonly [input: string]: boolean };
}
