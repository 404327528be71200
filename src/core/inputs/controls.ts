import type { DirectOut, Feed, Id, Send } from "../model/setup";
import type { Db, Pan, Sides } from "../model/units";

/** What a monitor input takes, and the output port that it comes by. */
export interface PatchedFeed {
  readonly feed: Feed;
  readonly port: number | null;
}

/** Every kind of control that a hand sets for a plan, with what it can stand at. */
export interface ControlValues {
  /** Channel numbers: where it is patched at the desk. */
  readonly "channel number": readonly number[];
  readonly "channel stereo": boolean;
  readonly polarity: boolean;
  readonly mute: boolean;
  readonly pan: Pan;
  readonly fader: Db | null;
  readonly "direct out": DirectOut;
  readonly send: Omit<Send, "channel">;
  readonly "bus number": readonly number[];
  readonly "bus stereo": boolean;
  readonly "bus mono": boolean;
  readonly "bus fader": Db | null;
  readonly "bus trim": Db;
  readonly "side trim": Sides<Db>;
  readonly "side polarity": Sides<boolean>;
  readonly pad: Db;
  /** Null where the input is free. */
  readonly "input feed": PatchedFeed | null;
  readonly "input on": boolean;
  readonly "input trim": Db;
  /** The bus that a musician listens to. */
  readonly hears: Id | null;
  readonly flip: boolean;
  readonly mono: boolean;
}

/** A kind of control. */
export type ControlCode = keyof ControlValues;

/**
 * Whose a control is. What feeds a monitor input is set at the desk, at its output port ("input"); the switch and the trim
 * of the input itself are the monitor system's.
 */
export type ControlOwner = "channel" | "bus" | "input" | "monitor system" | "mixer";

/** Which control it is. */
export interface ControlId<Code extends ControlCode = ControlCode> {
  readonly control: Code;
  /** Id of the channel, bus or listener; of an input its index from 0. */
  readonly id: Id;
  /** The bus that a send goes to; "" for anything else. */
  readonly bus: Id;
}

/** A control and what it stands at in a plan. */
export type DeskControl = {
  readonly [Code in ControlCode]: ControlId<Code> & { readonly value: ControlValues[Code] };
}[ControlCode];

/** Whose each kind of control is, in the order in which a hand sets those of one owner. */
export const CONTROL_OWNERS: { readonly [code in ControlCode]: ControlOwner } = {
  "channel number": "channel",
  "channel stereo": "channel",
  polarity: "channel",
  mute: "channel",
  pan: "channel",
  fader: "channel",
  "direct out": "channel",
  send: "channel",
  "bus number": "bus",
  "bus stereo": "bus",
  "bus mono": "bus",
  "bus fader": "bus",
  "bus trim": "bus",
  "side trim": "bus",
  "side polarity": "bus",
  pad: "bus",
  "input feed": "input",
  "input on": "monitor system",
  "input trim": "monitor system",
  hears: "mixer",
  flip: "mixer",
  mono: "mixer",
};

/** A key for which control it is. */
export const controlKey = ({ control, id, bus }: ControlId): string => JSON.stringify([control, id, bus]);

/** A value as text, so that two can be compared and one can be kept. */
export const controlValue = (value: ControlValues[ControlCode]): string => JSON.stringify(value);
