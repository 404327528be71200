import type { Id, Setup } from "../core/setup";

/** Names the file format; the first thing a reader looks at. */
export const FORMAT = "hatside-setup";
/** Version of the setup file that this code writes. */
export const VERSION = 1;

/** What the drummer can say of a hit. */
export type Answer = "left" | "middle" | "right" | "nothing" | "unclear";

/** One hit of a check at the kit and what was said of it. */
export interface Hit {
  readonly piece: Id;
  readonly answer: Answer;
}

/** A check at the kit under way: kept with the setup, so that a locked phone loses nothing. */
export interface CheckSession {
  readonly listener: Id;
  readonly hits: readonly Hit[];
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
  /** Slots ticked on the line check, by slot index: heard or not. */
  readonly lineCheck: { readonly [slot: string]: boolean };
}
