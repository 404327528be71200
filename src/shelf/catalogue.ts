import { type ReadonlySignal, signal } from "@preact/signals-core";
import { uniqueName } from "../core/model/ids";
import { type Cupboard, memoryCupboard } from "./cupboard";
import { lineOf, type OnShelf, recordOf, type ShelfRecord } from "./record";

const PREFIX = "setup-";
/** Under this key lies which setup was opened last. */
const LAST = "open";

/** Letters that no other tab has. */
export const unlikely = (): string => Math.random().toString(36).slice(2, 10);

/** A key that no setup has. */
export const freshId = (): string => `${PREFIX}${Date.now().toString(36)}-${unlikely()}`;

/** The setups in a cupboard and the list of them. Everything that waits may reject: full, refused, gone. */
export interface Catalogue {
  /** Last changed first. */
  readonly list: ReadonlySignal<readonly OnShelf[]>;
  /** From now on the setups lie there. */
  readonly use: (cupboard: Cupboard) => void;
  /** Every setup, and the id of the one that was opened last; the list is new then. */
  readonly readAll: () => Promise<{
    readonly records: ReadonlyMap<string, ShelfRecord>;
    readonly last: unknown;
  }>;
  /** One setup; rejects when it is not there any more. */
  readonly read: (id: string) => Promise<ShelfRecord>;
  /**
   * Changes a setup in one go; null takes it away. `change` gets null where there is none.
   * @param guess taken for what lies there, as in `Cupboard.update`
   */
  readonly change: (
    id: string,
    change: (was: ShelfRecord | null) => ShelfRecord | null,
    guess?: Partial<ShelfRecord>,
  ) => Promise<void>;
  /** Notes which setup was opened last. */
  readonly remember: (id: string) => Promise<void>;
  /** A name that none in the list has. */
  readonly freeName: (name: string) => string;
}

const newestFirst = (lines: OnShelf[]): OnShelf[] => lines.sort((a, b) => b.changed - a.changed);

/** A catalogue of what lies in memory, until another cupboard is used. */
export const createCatalogue = (): Catalogue => {
  const list = signal<readonly OnShelf[]>([]);
  let cupboard: Cupboard = memoryCupboard();
  return {
    list,
    use: (other) => {
      cupboard = other;
    },
    readAll: async () => {
      const things = await cupboard.all();
      const setups = [...things].filter(([key]) => key.startsWith(PREFIX));
      const records = new Map(setups.map(([key, value]) => [key, recordOf(value)]));
      list.value = newestFirst([...records].map(([id, record]) => lineOf(id, record)));
      return { records, last: things.get(LAST) };
    },
    read: async (id) => {
      const value = await cupboard.get(id);
      if (value === undefined) throw new Error("it is no longer saved here");
      return recordOf(value);
    },
    change: async (id, change, guess) => {
      let record: ShelfRecord | null = null;
      const next = (was: unknown): unknown => {
        record = change(was === undefined ? null : recordOf(was));
        return record ?? undefined;
      };
      await cupboard.update(id, next, guess);
      const others = list.peek().filter((line) => line.id !== id);
      list.value = record ? newestFirst([...others, lineOf(id, record)]) : others;
    },
    remember: (id) => cupboard.update(LAST, () => id),
    freeName: (name) => uniqueName(name, list.peek()),
  };
};
