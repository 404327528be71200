import { quoted } from "../core/lib/direction";
import type { MonitorInput, Setup } from "../core/model/setup";
import { type TextsOf, textOf } from "./coded";
import { formatComparedField, formatComparedValue, formatMonitorInput } from "./compared";
import type { ComparedField, ComparedKind } from "./compared-values";
import { nameOr } from "./names";
import { capitalised } from "./words";

/** Where two setups differ. */
export type SetupPart =
  | "Setup"
  | "Kit"
  | "Desk"
  | "Channels"
  | "Buses"
  | "Listeners"
  | "Inputs"
  | "Preferences"
  | "Earphones"
  | "Recording";

/** Things that a setup has lists of. */
export type ListedKind = "piece" | "channel" | "bus" | "listener";

/** One field that has another value. */
export interface FieldDifference {
  readonly of: ComparedKind;
  readonly field: ComparedField;
  /** Values as `ComparedValues` has them. */
  readonly was: unknown;
  readonly is: unknown;
}

/** What each kind of difference is about; names are "" where there is none. */
interface DifferenceValues {
  /** A field of the setup itself, of a thing by its name, or of a channel's send to a bus. */
  readonly changed: FieldDifference & {
    readonly kind: ListedKind | null;
    readonly name: string;
    readonly channel: string | null;
  };
  readonly new: { readonly kind: ListedKind; readonly name: string };
  readonly gone: { readonly kind: ListedKind; readonly name: string };
  readonly order: { readonly kind: ListedKind };
  readonly sent: { readonly bus: string; readonly channel: string };
  readonly "not sent": { readonly bus: string; readonly channel: string };
  /** What is in an input, from 0. */
  readonly input: {
    readonly index: number;
    readonly was: MonitorInput | null;
    readonly is: MonitorInput | null;
  };
  readonly "earphone added": object;
  readonly "earphone gone": object;
  /** Name of the recording that was measured; null where none was. */
  readonly measured: { readonly was: string | null; readonly is: string | null };
  /** Other figures of a recording of the same name. */
  readonly figures: { readonly name: string };
}

type DifferenceOf<Code extends keyof DifferenceValues> = {
  readonly code: Code;
  readonly part: SetupPart;
} & DifferenceValues[Code];

/** One thing in which two setups differ. */
export type Difference = { [Code in keyof DifferenceValues]: DifferenceOf<Code> }[keyof DifferenceValues];

/** Two setups, and what the second has otherwise. */
export interface Comparison {
  /** The first, with the ids that the same things have in the second. */
  readonly from: Setup;
  readonly to: Setup;
  readonly differences: readonly Difference[];
}

type Two = Pick<Comparison, "from" | "to">;

/** "L40 instead of R40"; two values that look alike in print get their digits behind them. */
const instead = (texts: readonly [was: string, is: string], was: unknown, is: unknown): string => {
  const [before, after] =
    texts[0] === texts[1]
      ? [`${texts[0]} (${JSON.stringify(was)})`, `${texts[1]} (${JSON.stringify(is)})`]
      : texts;
  return `${after} instead of ${before}`;
};

const fieldText = ({ of, field, was, is }: FieldDifference, { from, to }: Two): string => {
  const texts = [formatComparedValue(of, field, was, from), formatComparedValue(of, field, is, to)] as const;
  return `${formatComparedField(of, field)}${instead(texts, was, is)}`;
};

const measuredText = (name: string | null): string => (name === null ? "none" : `figures of ${quoted(name)}`);

const DIFFERENCES: TextsOf<Difference, [two: Two]> = {
  changed: (difference, two) => {
    const { of, kind, name, channel } = difference;
    const says = fieldText(difference, two);
    if (of === "recording") return `Measured: ${says}`;
    if (kind === null) return says;
    const sent = channel === null ? "" : `${nameOr({ name: channel }, "channel")} with `;
    return `${nameOr({ name }, kind)}: ${sent}${says}`;
  },
  new: ({ kind, name }) => `${nameOr({ name }, kind)} is new`,
  gone: ({ kind, name }) => `${nameOr({ name }, kind)} is not there`,
  order: ({ kind }) => `The ${kind === "bus" ? "buses" : `${kind}s`} are in another order`,
  sent: ({ bus, channel }) =>
    `${nameOr({ name: bus }, "bus")}: ${nameOr({ name: channel }, "channel")} is now sent to it`,
  "not sent": ({ bus, channel }) =>
    `${nameOr({ name: bus }, "bus")}: ${nameOr({ name: channel }, "channel")} is no longer sent to it`,
  input: ({ index, was, is }, { from, to }) => {
    const texts = [formatMonitorInput(was, from), formatMonitorInput(is, to)] as const;
    return `Input ${index + 1}: ${instead(texts, was, is)}`;
  },
  "earphone added": () => "Earphone data added",
  "earphone gone": () => "No earphone data",
  measured: ({ was, is }) => `Measured: ${measuredText(is)} instead of ${measuredText(was)}`,
  figures: ({ name }) => `Measured: other figures of ${quoted(name)}`,
};

/** One difference as a sentence without its full stop: "Hat: pan L40 instead of R40". */
export const describeDifference = (difference: Difference, two: Two): string =>
  capitalised(textOf(DIFFERENCES, difference, two));

/** Every difference of two setups in words. */
export const describeComparison = (comparison: Comparison): readonly string[] =>
  comparison.differences.map((difference) => describeDifference(difference, comparison));

/** A setting of the desk of a setup. */
export interface DeskSetting {
  readonly field: ComparedField<"desk">;
  readonly value: unknown;
}

/** A setting of a desk in words: "Pan law Linear". */
export const describeDeskSetting = ({ field, value }: DeskSetting, setup: Setup): string =>
  capitalised(`${formatComparedField("desk", field)}${formatComparedValue("desk", field, value, setup)}`);
