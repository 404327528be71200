import { nameOf } from "../core/called";
import { quoted } from "../core/direction";
import type { Id, Recording, Sum } from "../core/setup";
import { sentence } from "../core/words";
import { aligned } from "./align";
import {
  CONSOLE,
  EAR,
  type Field,
  KIT,
  LISTENER,
  MONITOR,
  PIECE,
  printSlot,
  RECORDING,
  SEND,
  SOURCE,
  SUM,
  WHOLE,
  WISHES,
} from "./compare-fields";
import type { SetupFile } from "./schema";

/** Where two setups differ. */
export type Part =
  | "Setup"
  | "Kit"
  | "Console"
  | "Sources"
  | "Sums"
  | "Listeners"
  | "Slots"
  | "Wishes"
  | "Earphones"
  | "Recording";

/** One thing in which two setups differ. */
export interface Difference {
  readonly part: Part;
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
const changes = <T>(two: Two, was: T, is: T, fields: readonly Field<T>[]): string[] =>
  fields.flatMap(({ what, value, print }) => {
    const [from, to] = [value(was), value(is)];
    if (same(from, to)) return [];
    return [`${what && `${what} `}${instead(print(was, two.from), print(is, two.to), from, to)}`];
  });

/** What differs between two lists of things that have ids and names. */
const inList = <T extends { readonly id: Id; readonly name: string }>(
  two: Two,
  kind: string,
  [was, is]: readonly [readonly T[], readonly T[]],
  fields: readonly Field<T>[],
  within: (was: T, is: T) => string[] = () => [],
): string[] => {
  const before = new Map(was.map((thing) => [thing.id, thing]));
  const after = new Map(is.map((thing) => [thing.id, thing]));
  const changed = is.flatMap((thing) => {
    const other = before.get(thing.id);
    const name = nameOf(other ?? thing, kind);
    if (!other) return [`${name} is there as well`];
    return [...changes(two, other, thing, fields), ...within(other, thing)].map((says) => `${name}: ${says}`);
  });
  const gone = was.filter((thing) => !after.has(thing.id));
  const stay = (list: readonly T[], others: ReadonlyMap<Id, T>) =>
    list.filter((t) => others.has(t.id)).map((t) => t.id);
  return [
    ...changed,
    ...gone.map((thing) => `${nameOf(thing, kind)} is not there`),
    ...(same(stay(was, after), stay(is, before)) ? [] : [`The ${kind}s are in another order`]),
  ];
};

/** What differs in what goes into a sum. */
const inSends =
  (two: Two) =>
  (was: Sum, is: Sum): string[] => {
    const names = new Map([...two.from.sources, ...two.to.sources].map((s) => [s.id, nameOf(s, "source")]));
    const ids = new Set([...was.sends, ...is.sends].map((send) => send.source));
    return [...ids].flatMap((id) => {
      const before = was.sends.find((s) => s.source === id);
      const after = is.sends.find((s) => s.source === id);
      const name = names.get(id) ?? "";
      if (!before || !after) return [`${name} ${after ? "goes into it as well" : "does not go into it"}`];
      return changes(two, before, after, SEND).map((says) => `${name} with ${says}`);
    });
  };

const inSlots = (two: Two): string[] => {
  const [was, is] = [two.from.monitor.slots, two.to.monitor.slots];
  return Array.from({ length: Math.max(was.length, is.length) }, (_, at) => {
    const [before, after] = [was[at] ?? null, is[at] ?? null];
    if (same(before, after)) return [];
    const texts = [printSlot(before, two.from), printSlot(after, two.to)] as const;
    return [`Slot ${at + 1}: ${instead(...texts, before, after)}`];
  }).flat();
};

const inEars = (two: Two): string[] => {
  const [was, is] = [two.from.ear, two.to.ear];
  if (was && is) return changes(two, was, is, EAR);
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
  const figures = ({ sources, correlation }: Recording) => [sources, correlation];
  // Those of another recording are others anyway.
  const others = was.name === is.name && !same(figures(was), figures(is));
  return [
    ...changes(two, was, is, RECORDING),
    ...(others ? [`other figures of ${quoted(is.name)}`] : []),
  ].map((says) => `Measured: ${says}`);
};

/**
 * What the setup `to` has otherwise than `from`, in words. Pieces, sources, sums and listeners are known again by id
 * and name, else by name, else by id. The setups' names, and how far a check at the kit or a line check went, are no
 * differences; nor is the order of sends.
 */
export const differences = (from: SetupFile, to: SetupFile): readonly Difference[] => {
  const two: Two = { from: aligned(from, to), to };
  const was = two.from;
  const parts: { readonly [part in Part]: readonly string[] } = {
    Setup: changes(two, was, to, WHOLE),
    Kit: [
      ...changes(two, was.kit, to.kit, KIT),
      ...inList(two, "piece", [was.kit.pieces, to.kit.pieces], PIECE),
    ],
    Console: changes(two, was.console, to.console, CONSOLE),
    Sources: inList(two, "source", [was.sources, to.sources], SOURCE),
    Sums: inList(two, "sum", [was.sums, to.sums], SUM, inSends(two)),
    Listeners: inList(two, "listener", [was.listeners, to.listeners], LISTENER),
    Slots: [...changes(two, was.monitor, to.monitor, MONITOR), ...inSlots(two)],
    Wishes: changes(two, was.wishes, to.wishes, WISHES),
    Earphones: inEars(two),
    Recording: inRecordings(two),
  };
  return (Object.keys(parts) as Part[]).flatMap((part) =>
    parts[part].map((says) => ({ part, says: sentence(says) })),
  );
};
