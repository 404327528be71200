import { keysOf } from "../core/lib/keys";
import type { Bus, Desk, Id } from "../core/model/setup";
import type {
  Comparison,
  DeskSetting,
  Difference,
  FieldDifference,
  ListedKind,
  SetupPart,
} from "../text/compare";
import type { ComparedField, ComparedKind } from "../text/compared-values";
import { aligned } from "./align";
import { blankSetup } from "./blank";
import { COMPARED, type ComparedThing } from "./compare-fields";
import type { SetupFile } from "./schema";

/** A difference whose part of the setup is said by whoever lists it. */
type Unplaced<D = Difference> = D extends Difference ? Omit<D, "part"> : never;

interface Named {
  readonly id: Id;
  readonly name: string;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The fields in which two states of one thing differ, in their order. */
const fieldsOf = <K extends ComparedKind>(
  of: K,
  was: ComparedThing<K>,
  is: ComparedThing<K>,
): FieldDifference[] => {
  const values: { readonly [field: string]: (thing: ComparedThing<K>) => unknown } = COMPARED[of];
  return (Object.keys(values) as ComparedField[]).flatMap((field) => {
    const [before, after] = [was, is].map((thing) => values[field]?.(thing));
    return same(before, after) ? [] : [{ of, field, was: before, is: after }];
  });
};

/** Whose state it is: the setup’s own, that of a thing in a list, or that of a channel’s send to a bus. */
interface Owner {
  readonly kind: ListedKind | null;
  readonly name: string;
  readonly channel: string | null;
}
const SETUP: Owner = { kind: null, name: "", channel: null };

/** What differs between two states of one thing. */
const changes = <K extends ComparedKind>(
  of: K,
  was: ComparedThing<K>,
  is: ComparedThing<K>,
  owner = SETUP,
): Unplaced[] => fieldsOf(of, was, is).map((field) => ({ code: "changed", ...owner, ...field }));

/** What differs between two lists of things that have ids and names. */
const inList = <K extends ListedKind>(
  kind: K,
  [was, is]: readonly [readonly (ComparedThing<K> & Named)[], readonly (ComparedThing<K> & Named)[]],
  within: (was: ComparedThing<K>, is: ComparedThing<K>) => Unplaced[] = () => [],
): Unplaced[] => {
  const before = new Map(was.map((thing) => [thing.id, thing]));
  const after = new Map(is.map((thing) => [thing.id, thing]));
  const changed = is.flatMap((thing): Unplaced[] => {
    const other = before.get(thing.id);
    if (!other) return [{ code: "new", kind, name: thing.name }];
    return [
      ...changes(kind, other, thing, { kind, name: other.name, channel: null }),
      ...within(other, thing),
    ];
  });
  const stay = (list: readonly Named[], others: ReadonlyMap<Id, Named>) =>
    list.filter((t) => others.has(t.id)).map((t) => t.id);
  return [
    ...changed,
    ...was
      .filter((thing) => !after.has(thing.id))
      .map(({ name }): Unplaced => ({ code: "gone", kind, name })),
    ...(same(stay(was, after), stay(is, before)) ? [] : [{ code: "order", kind } as const]),
  ];
};

/** What differs in what goes into a bus. */
const inSends =
  (from: SetupFile, to: SetupFile) =>
  (was: Bus, is: Bus): Unplaced[] => {
    const names = new Map([...from.channels, ...to.channels].map((s) => [s.id, s.name]));
    const ids = new Set([...was.sends, ...is.sends].map((send) => send.channel));
    return [...ids].flatMap((id): Unplaced[] => {
      const before = was.sends.find((s) => s.channel === id);
      const after = is.sends.find((s) => s.channel === id);
      const channel = names.get(id) ?? "";
      if (!before || !after) return [{ code: after ? "sent" : "not sent", bus: was.name, channel }];
      return changes("send", before, after, { kind: "bus", name: was.name, channel });
    });
  };

const inInputs = (from: SetupFile, to: SetupFile): Unplaced[] => {
  const [was, is] = [from.monitor.inputs, to.monitor.inputs];
  return Array.from({ length: Math.max(was.length, is.length) }, (_, index): Unplaced[] => {
    const [before, after] = [was[index] ?? null, is[index] ?? null];
    return same(before, after) ? [] : [{ code: "input", index, was: before, is: after }];
  }).flat();
};

const inEars = ({ earphone: was }: SetupFile, { earphone: is }: SetupFile): Unplaced[] => {
  if (was && is) return changes("earphone", was, is);
  return was || is ? [{ code: is ? "earphone added" : "earphone gone" }] : [];
};

const inRecordings = ({ recording: was }: SetupFile, { recording: is }: SetupFile): Unplaced[] => {
  if (!was || !is)
    return was || is ? [{ code: "measured", was: was?.name ?? null, is: is?.name ?? null }] : [];
  // Those of another recording are others anyway.
  const hasOthers =
    was.name === is.name && !same([was.channels, was.correlation], [is.channels, is.correlation]);
  return [
    ...changes("recording", was, is),
    ...(hasOthers ? [{ code: "figures", name: is.name } as const] : []),
  ];
};

/** What the desk `to` has otherwise than `from`. */
export const compareDesks = (from: Desk, to: Desk): Comparison => ({
  from: { ...blankSetup(), desk: from },
  to: { ...blankSetup(), desk: to },
  differences: changes("desk", from, to).map((difference): Difference => ({ ...difference, part: "Desk" })),
});

/** Everything that is said of a desk but its name. */
export const deskSettings = (desk: Desk): readonly DeskSetting[] =>
  keysOf(COMPARED.desk)
    .filter((field) => field !== "name")
    .map((field) => ({ field, value: COMPARED.desk[field](desk) }));

/**
 * What the setup `to` has otherwise than `from`. Pieces, channels, buses and listeners are known again by id
 * and name, else by name, else by id. The setups' names, and how far a check at the kit, a line check, a trace or the
 * desk list went, are no differences; nor is the order of sends.
 */
export const compareSetups = (before: SetupFile, to: SetupFile): Comparison => {
  const from = aligned(before, to);
  const parts: { readonly [part in SetupPart]: readonly Unplaced[] } = {
    Setup: changes("setup", from, to),
    Kit: [...changes("kit", from.kit, to.kit), ...inList("piece", [from.kit.pieces, to.kit.pieces])],
    Desk: changes("desk", from.desk, to.desk),
    Channels: inList("channel", [from.channels, to.channels]),
    Buses: inList("bus", [from.buses, to.buses], inSends(from, to)),
    Listeners: inList("listener", [from.listeners, to.listeners]),
    Inputs: [...changes("monitor", from.monitor, to.monitor), ...inInputs(from, to)],
    Preferences: changes("preferences", from.preferences, to.preferences),
    Earphones: inEars(from, to),
    Recording: inRecordings(from, to),
  };
  return {
    from,
    to,
    differences: keysOf(parts).flatMap((part) =>
      parts[part].map((difference): Difference => ({ ...difference, part })),
    ),
  };
};
