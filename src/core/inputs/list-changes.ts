import { keysOf } from "../lib/keys";
import type { Id, Setup } from "../model/setup";
import { type ListRow, listOf } from "./list";

/** One thing that would change of a channel: what it is, and what it would be. */
export type FieldChange = {
  [field in keyof ListRow]: {
    readonly field: field;
    readonly from: ListRow[field];
    readonly to: ListRow[field];
  };
}[keyof ListRow];

/** What would become of one channel. */
export type ListChange =
  | { readonly state: "new"; readonly id: Id; readonly row: ListRow }
  | { readonly state: "gone"; readonly id: Id; readonly row: ListRow }
  | {
      readonly state: "known";
      readonly id: Id;
      /** As it is now. */
      readonly row: ListRow;
      /** Empty where nothing would change. */
      readonly changes: readonly FieldChange[];
    };

/** Whether anything would become of the channel. */
export const moves = (change: ListChange): boolean => change.state !== "known" || change.changes.length > 0;

const rowsOf = (setup: Setup): ReadonlyMap<Id, ListRow> => {
  const rows = listOf(setup);
  return new Map(setup.channels.map(({ id }, i) => [id, rows[i] as ListRow]));
};

/** Every field of a line: one that is left out does not compile. */
const FIELDS: { readonly [field in keyof ListRow]: true } = {
  numbers: true,
  name: true,
  kind: true,
  piece: true,
  lines: true,
  pan: true,
  muted: true,
  inverted: true,
  gatedRms: true,
  peak: true,
  keepSides: true,
  feeds: true,
  sends: true,
  extra: true,
};
const FIELD_NAMES = keysOf(FIELDS);

const changesOf = (before: ListRow, after: ListRow): FieldChange[] =>
  FIELD_NAMES.filter((field) => JSON.stringify(before[field]) !== JSON.stringify(after[field])).map(
    (field) => ({ field, from: before[field], to: after[field] }) as FieldChange,
  );

/**
 * What a change of the input list would do, channel by channel in the order of the setup after it, then those that would
 * go: read off the two setups, so that nothing changes unseen.
 */
export const listChanges = (before: Setup, after: Setup): ListChange[] => {
  const [was, is] = [rowsOf(before), rowsOf(after)];
  const stay = [...is].map(([id, row]): ListChange => {
    const old = was.get(id);
    return old ? { state: "known", id, row: old, changes: changesOf(old, row) } : { state: "new", id, row };
  });
  const gone = [...was].filter(([id]) => !is.has(id));
  return [...stay, ...gone.map(([id, row]): ListChange => ({ state: "gone", id, row }))];
};
