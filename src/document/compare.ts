import { quoted } from "../core/lib/direction";
import type { Bus, Desk, Id, Recording } from "../core/model/setup";
import { nameOr } from "../text/names";
import { capitalised } from "../text/words";
import { aligned } from "./align";
import { blankSetup } from "./blank";
import {
  BUS,
  CHANNEL,
  DESK,
  DESK_NAME,
  EARPHONE,
  formatInput,
  KIT,
  LISTENER,
  MONITOR,
  PIECE,
  PREFERENCES,
  RECORDING,
  SEND,
  WHOLE,
} from "./compare-fields";
import type { ComparedField } from "./compared-field";
import type { SetupFile } from "./schema";

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

/** One thing in which two setups differ. */
export interface Difference {
  readonly part: SetupPart;
  /** A sentence without its full stop: "Hat: pan L40 instead of R40". */
  readonly says: string;
}

/** The two setups, with one id for what is the same. */
interface Two {
  readonly from: SetupFile;
  readonly to: SetupFile;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** "L40 instead of R40"; two values that look alike in print get their digits behind them. */
const instead = (was: string, is: string, from: unknown, to: unknown): string => {
  const [before, after] =
    was === is ? [`${was} (${JSON.stringify(from)})`, `${is} (${JSON.stringify(to)})`] : [was, is];
  return `${after} instead of ${before}`;
};

/** What differs between two states of one thing. */
const changes = <T>(two: Two, was: T, is: T, fields: readonly ComparedField<T>[]): string[] =>
  fields.flatMap(({ what, value, print }) => {
    const [from, to] = [value(was), value(is)];
    if (same(from, to)) return [];
    return [`${what && `${what} `}${instead(print(was, two.from), print(is, two.to), from, to)}`];
  });

/** What the desk `to` has otherwise than `from`: sentences without their full stop. */
export const deskDifferences = (from: Desk, to: Desk): readonly string[] => {
  const setup = blankSetup();
  return changes({ from: setup, to: setup }, from, to, DESK).map(capitalised);
};

/** Everything that is said of a desk but its name, one line each: "Pan law −3 dB sine". */
export const deskSettings = (desk: Desk): readonly string[] => {
  const setup = blankSetup();
  return DESK.filter((field) => field !== DESK_NAME).map(({ what, print }) =>
    capitalised(`${what && `${what} `}${print(desk, setup)}`),
  );
};

/** What differs between two lists of things that have ids and names. */
const inList = <T extends { readonly id: Id; readonly name: string }>(
  two: Two,
  kind: string,
  [was, is]: readonly [readonly T[], readonly T[]],
  fields: readonly ComparedField<T>[],
  within: (was: T, is: T) => string[] = () => [],
): string[] => {
  const before = new Map(was.map((thing) => [thing.id, thing]));
  const after = new Map(is.map((thing) => [thing.id, thing]));
  const changed = is.flatMap((thing) => {
    const other = before.get(thing.id);
    const name = nameOr(other ?? thing, kind);
    if (!other) return [`${name} is new`];
    return [...changes(two, other, thing, fields), ...within(other, thing)].map((says) => `${name}: ${says}`);
  });
  const gone = was.filter((thing) => !after.has(thing.id));
  const stay = (list: readonly T[], others: ReadonlyMap<Id, T>) =>
    list.filter((t) => others.has(t.id)).map((t) => t.id);
  return [
    ...changed,
    ...gone.map((thing) => `${nameOr(thing, kind)} is not there`),
    ...(same(stay(was, after), stay(is, before))
      ? []
      : [`The ${kind === "bus" ? "buses" : `${kind}s`} are in another order`]),
  ];
};

/** What differs in what goes into a bus. */
const inSends =
  (two: Two) =>
  (was: Bus, is: Bus): string[] => {
    const names = new Map(
      [...two.from.channels, ...two.to.channels].map((s) => [s.id, nameOr(s, "channel")]),
    );
    const ids = new Set([...was.sends, ...is.sends].map((send) => send.channel));
    return [...ids].flatMap((id) => {
      const before = was.sends.find((s) => s.channel === id);
      const after = is.sends.find((s) => s.channel === id);
      const name = names.get(id) ?? "";
      if (!before || !after) return [`${name} ${after ? "is now sent to it" : "is no longer sent to it"}`];
      return changes(two, before, after, SEND).map((says) => `${name} with ${says}`);
    });
  };

const inInputs = (two: Two): string[] => {
  const [was, is] = [two.from.monitor.inputs, two.to.monitor.inputs];
  return Array.from({ length: Math.max(was.length, is.length) }, (_, at) => {
    const [before, after] = [was[at] ?? null, is[at] ?? null];
    if (same(before, after)) return [];
    const texts = [formatInput(before, two.from), formatInput(after, two.to)] as const;
    return [`Input ${at + 1}: ${instead(...texts, before, after)}`];
  }).flat();
};

const inEars = (two: Two): string[] => {
  const [was, is] = [two.from.earphone, two.to.earphone];
  if (was && is) return changes(two, was, is, EARPHONE);
  if (was || is) return [is ? "Earphone data added" : "No earphone data"];
  return [];
};

const inRecordings = (two: Two): string[] => {
  const [was, is] = [two.from.recording, two.to.recording];
  if (!was || !is) {
    const said = (recording: Recording | null) =>
      recording ? `figures of ${quoted(recording.name)}` : "none";
    return was || is ? [`Measured: ${said(is)} instead of ${said(was)}`] : [];
  }
  const figures = ({ channels, correlation }: Recording) => [channels, correlation];
  // Those of another recording are others anyway.
  const others = was.name === is.name && !same(figures(was), figures(is));
  return [
    ...changes(two, was, is, RECORDING),
    ...(others ? [`other figures of ${quoted(is.name)}`] : []),
  ].map((says) => `Measured: ${says}`);
};

/**
 * What the setup `to` has otherwise than `from`, in words. Pieces, channels, sums and listeners are known again by id
 * and name, else by name, else by id. The setups' names, and how far a check at the kit, a line check, a trace or the
 * desk list went, are no differences; nor is the order of sends.
 */
export const differences = (from: SetupFile, to: SetupFile): readonly Difference[] => {
  const two: Two = { from: aligned(from, to), to };
  const was = two.from;
  const parts: { readonly [part in SetupPart]: readonly string[] } = {
    Setup: changes(two, was, to, WHOLE),
    Kit: [
      ...changes(two, was.kit, to.kit, KIT),
      ...inList(two, "piece", [was.kit.pieces, to.kit.pieces], PIECE),
    ],
    Desk: changes(two, was.desk, to.desk, DESK),
    Channels: inList(two, "channel", [was.channels, to.channels], CHANNEL),
    Buses: inList(two, "bus", [was.buses, to.buses], BUS, inSends(two)),
    Listeners: inList(two, "listener", [was.listeners, to.listeners], LISTENER),
    Inputs: [...changes(two, was.monitor, to.monitor, MONITOR), ...inInputs(two)],
    Preferences: changes(two, was.preferences, to.preferences, PREFERENCES),
    Earphones: inEars(two),
    Recording: inRecordings(two),
  };
  return (Object.keys(parts) as SetupPart[]).flatMap((part) =>
    parts[part].map((says) => ({ part, says: capitalised(says) })),
  );
};
