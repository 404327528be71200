import type { ControlId } from "../core/inputs/controls";
import type { TraceAbout, TraceLook } from "../core/inputs/trace";
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

/** A trace under way, why somebody does not hear something: kept with the setup for the same reason. */
export interface TraceSession {
  readonly listener: Id;
  readonly about: TraceAbout;
  /** In the order in which they were made. */
  readonly looks: readonly TraceLook[];
}

/** Who ticked something and when. */
export interface Stamp {
  /** Date and time as ISO 8601 writes them, in UTC. */
  readonly at: string;
  /** "" where nobody gave a name. */
  readonly by: string;
}

/** A control at the desk that somebody has set: which, and the value that they saw, as JSON text. */
export interface DeskTick extends ControlId, Stamp {
  readonly value: string;
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
  /** Controls that were ticked as set, each once; absent while there is none. */
  readonly deskTicks?: readonly DeskTick[];
  /** Absent while there is none. */
  readonly trace?: TraceSession;
}
