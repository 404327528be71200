import type { ControlCode, ControlId } from "../core/inputs/controls";
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

/** What a tick is about: a control of the desk list, or what is in a monitor input, on the line check. */
export type TickedCode = ControlCode | "line check";

/** What somebody said of something, and when: their last word about it. */
export interface TickEntry extends Stamp {
  readonly control: TickedCode;
  /** As in `ControlId`; on the line check the index of the input from 0. */
  readonly id: Id;
  /** As in `ControlId`; on the line check the musician at whose mixer it was said, "" where it was anywhere. */
  readonly bus: Id;
  /** What it stood at, or the feed that was in the input, as JSON text: it holds for that alone. */
  readonly value: string;
  /** Set or OK; false is no signal; null took the tick off. */
  readonly said: boolean | null;
}

/** Where a helper’s copy comes from. */
export interface HandedOver {
  /** Id of the setup on the shelf of the phone that handed it over. */
  readonly of: Id;
  /** When, by that phone’s clock, as `Stamp.at`; what the helper ticks is later. */
  readonly at: string;
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
  /** Inputs ticked on the line check, by their places (`lineKey`): heard or not. */
  readonly lineCheck: { readonly [place: string]: boolean };
  /** Controls that were ticked as set, each once; absent while there is none. */
  readonly deskTicks?: readonly DeskTick[];
  /** Absent while there is none. */
  readonly trace?: TraceSession;
  /**
   * Who ticked what when, on this phone and on others, by time, but for what stands in `deskTicks`; of the line check
   * what holds is in `lineCheck`. Absent while there is nothing.
   */
  readonly tickLog?: readonly TickEntry[];
  /** A helper’s copy, for ticks only; absent in a setup of one’s own. */
  readonly handed?: HandedOver;
}
