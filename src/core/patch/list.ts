import { nextId } from "../naming";
import type { Id, Setup, Slot, Source, SourceKind, TapPoint } from "../setup";
import type { Db, Pan, Side } from "../units";

/** A slot that a source has of its own. */
export interface ListFeed {
  /** Number as it stands on the mixer, from 1. */
  readonly slot: number;
  readonly channel: "both" | Side;
  readonly tap: TapPoint;
  readonly on: boolean;
  readonly trim: Db;
}

/** One line of an input list: all that is said of a source, and the slots it has of its own. */
export interface ListRow {
  readonly name: string;
  readonly kind: SourceKind;
  /** Name of the piece it stands at; null where it stands at none. */
  readonly piece: string | null;
  readonly channels: 1 | 2;
  readonly pan: Pan;
  readonly muted: boolean;
  readonly inverted: boolean;
  readonly level: Db | null;
  readonly peak: Db | null;
  readonly keepSides: boolean;
  /** In the order of the slots. */
  readonly feeds: readonly ListFeed[];
}

const feedsOf = (setup: Setup, source: Id): ListFeed[] =>
  setup.monitor.slots.flatMap((slot, i) =>
    slot?.feed.kind === "source" && slot.feed.source === source
      ? [{ slot: i + 1, channel: slot.feed.channel, tap: slot.feed.tap, on: slot.on, trim: slot.trim }]
      : [],
  );

/** The input list of a setup. */
export const listOf = (setup: Setup): ListRow[] =>
  setup.sources.map(({ id, ...source }) => ({
    ...source,
    piece: setup.kit.pieces.find((p) => p.id === source.piece)?.name ?? null,
    feeds: feedsOf(setup, id),
  }));

/** What becomes of the sources that the list does not name: they stay, or they go. */
export type ListMode = "add" | "replace";

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** The source that each line is about: the next one of its name, else a new one. */
const matched = (setup: Setup, rows: readonly ListRow[]): { readonly row: ListRow; readonly id: Id }[] => {
  const left = [...setup.sources];
  const all: { readonly id: Id }[] = [...setup.sources];
  return rows.map((row) => {
    const at = left.findIndex((s) => same(s.name, row.name));
    const [known] = at < 0 ? [] : left.splice(at, 1);
    if (known) return { row, id: known.id };
    const id = nextId("s", all);
    all.push({ id });
    return { row, id };
  });
};

const sourceOf = (setup: Setup, { feeds, piece, ...row }: ListRow, id: Id): Source => ({
  ...row,
  id,
  piece: piece === null ? null : (setup.kit.pieces.find((p) => same(p.name, piece))?.id ?? null),
});

/** Puts feeds into their slots; one whose slot is taken goes into the next free one from there, else the first, or beyond the count. */
const put = (
  slots: (Slot | null)[],
  feeds: readonly { readonly index: number; readonly slot: Slot }[],
  slotCount: number,
): void => {
  const waiting: { readonly index: number; readonly slot: Slot }[] = [];
  for (const { index, slot } of feeds) {
    while (slots.length <= index) slots.push(null);
    if (slots[index]) waiting.push({ index, slot });
    else slots[index] = slot;
  }
  for (const { index, slot } of waiting) {
    while (slots.length < slotCount) slots.push(null);
    const after = slots.indexOf(null, index);
    const free = after < 0 || after >= slotCount ? slots.indexOf(null) : after;
    if (free < 0) slots.push(slot);
    else slots[free] = slot;
  }
};

/**
 * A setup with an input list taken in. A source of the same name is changed and keeps its place in the sums, one that
 * is not there is added behind. Slots that a line names are filled; where something else is in one, the feed goes into
 * the next free slot after it, else the first free one, or beyond the count: nothing is dropped. A piece that the kit has not is no piece.
 */
export const withList = (setup: Setup, rows: readonly ListRow[], mode: ListMode): Setup => {
  const lines = matched(setup, rows);
  const byId = new Map(lines.map((line) => [line.id, line]));
  const listed = ({ row, id }: (typeof lines)[number]): Source => sourceOf(setup, row, id);
  const known = new Set(setup.sources.map((s) => s.id));
  const sources =
    mode === "replace"
      ? lines.map(listed)
      : [
          ...setup.sources.map((s) => {
            const line = byId.get(s.id);
            return line ? listed(line) : s;
          }),
          ...lines.filter((line) => !known.has(line.id)).map(listed),
        ];
  const stays = new Set(sources.map((s) => s.id));
  const slots = setup.monitor.slots.map((slot) => {
    if (slot?.feed.kind !== "source") return slot;
    const line = byId.get(slot.feed.source);
    return stays.has(slot.feed.source) && (line?.row.feeds.length ?? 0) === 0 ? slot : null;
  });
  const feeds = lines.flatMap(({ row, id }) =>
    row.feeds.map(({ slot, channel, tap, on, trim }) => ({
      index: slot - 1,
      slot: { feed: { kind: "source", source: id, channel, tap }, on, trim } as const,
    })),
  );
  put(slots, feeds, setup.monitor.slotCount);
  const sums = setup.sums.map((sum) => ({ ...sum, sends: sum.sends.filter((s) => stays.has(s.source)) }));
  return { ...setup, sources, sums, monitor: { ...setup.monitor, slots } };
};
