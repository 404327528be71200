import type { DirectOut, Id, MonitorInput, Setup, TapPoint } from "../model/setup";
import type { Db, Side, Sides } from "../model/units";
import type { MisfitCode } from "./taps";

/** How bad: the patch does not do what it should; it probably does not; worth knowing. */
export type Severity = "fault" | "warn" | "note";

/** What a check of the patch can find, each with the values that belong to it. Input indexes count from 0. */
export interface IssueValues {
  /** More feeds than inputs. */
  "too many": { readonly used: number; readonly inputCount: number; readonly over: number };
  /** Something beyond the last input while others are free. */
  "beyond last": { readonly inputCount: number; readonly free: readonly number[] };
  /** A channel has inputs of its own (`direct`) and is inside a patched bus (`within`): what both together change, by ear, dB. */
  "heard twice": {
    readonly direct: readonly number[];
    readonly within: readonly number[];
    readonly rise: Sides<Db | null>;
  };
  /** The very same thing in two inputs: the one to free, and how much louder both are, dB; null where that one is off. */
  "patched twice": { readonly again: number; readonly rise: Db | null };
  /** Both sides of a folded bus take an input and carry the same: the inputs that can go. */
  "spare side": { readonly spare: readonly number[] };
  /** The two sides of a pair are not neighbours. */
  split: null;
  /** A pair lies swapped and is not meant to. */
  swapped: null;
  /** A pair is meant to lie swapped and does not. */
  normal: null;
  /** Neighbours, but not an odd input and the even one after it. */
  "odd and even": null;
  "only one side": { readonly missing: Side };
  off: null;
  muted: null;
  "tap point": { readonly tap: TapPoint; readonly better: TapPoint; readonly why: MisfitCode };
  /** A patched bus in which nothing sounds. */
  "empty bus": null;
  /** Buses that have no monitor input, and nobody who is to hear them. */
  "unfed bus": null;
  /** A listener hears no bus. */
  "no bus": null;
  /** A listener hears a bus that has no input, or is off. */
  "unfed listener": { readonly bus: "unassigned" | "off" };
  /** Channels that reach nobody. */
  "unfed channel": null;
  /** Several channels or buses of one name; "" where they have none. */
  "same name": { readonly name: string };
  /** Several channels with one channel number, or buses with one bus number. */
  "same number": { readonly number: number };
  /** Channels or buses with a number that the desk does not have; it has so many. */
  "beyond desk": { readonly count: number };
  /** An output port, counted from 1, that is to feed different things. */
  "same port": { readonly port: number };
  /** Inputs fed by an output port that the desk does not have; the number, from 1, of its last. */
  "beyond ports": { readonly last: number };
  /** Channels whose send into a patched bus is off. */
  "send off": null;
  /** No input brings a sound. */
  "nothing fed": null;
}

/** What a check of the patch can find. */
export type IssueCode = keyof IssueValues;

/** One change that puts something right. */
export type Edit =
  /** What an input takes from now on, by index from 0; null frees it. */
  | { readonly edit: "input"; readonly index: number; readonly to: MonitorInput | null }
  /** In which order a pair is meant to be patched. */
  | { readonly edit: "direct out"; readonly channel: Id; readonly to: DirectOut }
  | { readonly edit: "meant"; readonly bus: Id; readonly swapped: boolean };

/** What an issue is about. */
export interface IssueAbout {
  /** Indexes from 0. */
  readonly inputs: readonly number[];
  readonly channels: readonly Id[];
  readonly buses: readonly Id[];
  readonly listeners: readonly Id[];
}

/** What a check of the patch found. */
export type Issue = {
  readonly [code in IssueCode]: IssueAbout & {
    readonly code: code;
    readonly severity: Severity;
    readonly values: IssueValues[code];
    /** What to do as data for `applyEdits`, where one tap can do it. */
    readonly fix?: readonly Edit[];
  };
}[IssueCode];

/** An issue with whatever it does not concern left empty. */
export const issue = <Code extends IssueCode>(
  code: Code,
  severity: Severity,
  about: Partial<IssueAbout>,
  values: IssueValues[Code],
  fix: readonly Edit[] = [],
): Issue =>
  ({
    code,
    severity,
    inputs: [],
    channels: [],
    buses: [],
    listeners: [],
    ...about,
    values,
    ...(fix.length > 0 ? { fix } : {}),
  }) as Issue;

/** A setup with the changes made, in order; the very same one when there are none. */
export const applyEdits = (setup: Setup, edits: readonly Edit[]): Setup => {
  if (edits.length === 0) return setup;
  const inputs = [...setup.monitor.inputs];
  let { buses, channels } = setup;
  for (const edit of edits) {
    if (edit.edit === "input") {
      while (inputs.length <= edit.index) inputs.push(null);
      inputs[edit.index] = edit.to;
    } else if (edit.edit === "direct out") {
      channels = channels.map((c) => (c.id === edit.channel ? { ...c, directOut: edit.to } : c));
    } else buses = buses.map((s) => (s.id === edit.bus ? { ...s, swapped: edit.swapped } : s));
  }
  return { ...setup, channels, buses, monitor: { ...setup.monitor, inputs } };
};
