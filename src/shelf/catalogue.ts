import { type ReadonlySignal, signal } from "@preact/signals-core";
import { uniqueName } from "../core/model/ids";
import { type Cupboard, memoryCupboard } from "./cupboard";
import { lineOf, type OnShelf, recordOf, type ShelfRecord } from "./record";

/** What sort of thing a catalogue is of. */
interface Sort<L extends OnShelf> {
  /** Its keys begin so. */
  readonly prefix: string;
  /** Under this key lies what is noted of the one used last. */
  readonly last: string;
  readonly line: (id: string, record: ShelfRecord) => L;
}

const SETUPS: Sort<OnShelf> = { prefix: "setup-", last: "open", line: lineOf };

/** Letters that no other tab has. */
export const unlikely = (): string => Math.random().toString(36).slice(2, 10);

/** A key that nothing else has. */
export const freshId = (prefix = SETUPS.prefix): string =>
  `${prefix}${Date.now().toString(36)}-${unlikely()}`;

/** The things of one sort in a cupboard, setups or desks, and the list of them. All that waits may reject: full, refused, gone. */
export interface Catalogue<L extends OnShelf = OnShelf> {
  /** Last changed first. */
  readonly list: ReadonlySignal<readonly L[]>;
  /** Where they lie. */
  readonly cupboard: () => Cupboard;
  /** From now on they lie there. */
  readonly use: (cupboard: Cupboard) => void;
  /** Every one, and what is noted of the one used last; the list is new then. */
  readonly readAll: () => Promise<{
    readonly records: ReadonlyMap<string, ShelfRecord>;
    readonly last: unknown;
  }>;
  /** One of them; rejects when it is not there any more. */
  readonly read: (id: string) => Promise<ShelfRecord>;
  /**
   * Changes one in one go; null takes it away. `change` gets null where there is none.
   * @param guess taken for what lies there, as in `Cupboard.update`
   */
  readonly change: (
    id: string,
    change: (was: ShelfRecord | null) => ShelfRecord | null,
    guess?: Partial<ShelfRecord>,
  ) => Promise<void>;
  /** What was last given to `remember`; undefined: nothing. */
  readonly recall: () => Promise<unknown>;
  /** Notes which one was used last. */
  readonly remember: (what: unknown) => Promise<void>;
  /** A name that none in the list has. */
  readonly freeName: (name: string) => string;
}

const newestFirst = <L extends OnShelf>(lines: L[]): L[] => lines.sort((a, b) => b.changed - a.changed);

/** A catalogue of what lies in a cupboard, until another is used. */
export const createCatalogueOf = <L extends OnShelf>(
  { prefix, last, line }: Sort<L>,
  first: Cupboard,
): Catalogue<L> => {
  const list = signal<readonly L[]>([]);
  let cupboard = first;
  return {
    list,
    cupboard: () => cupboard,
    use: (other) => {
      cupboard = other;
    },
    readAll: async () => {
      const things = await cupboard.all();
      const mine = [...things].filter(([key]) => key.startsWith(prefix));
      const records = new Map(mine.map(([key, value]) => [key, recordOf(value)]));
      list.value = newestFirst([...records].map(([id, record]) => line(id, record)));
      return { records, last: things.get(last) };
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
      const others = list.peek().filter((each) => each.id !== id);
      list.value = record ? newestFirst([...others, line(id, record)]) : others;
    },
    recall: () => cupboard.get(last),
    remember: (what) => cupboard.update(last, () => what),
    freeName: (name) => uniqueName(name, list.peek()),
  };
};

/** A catalogue of setups in memory, until another cupboard is used. */
export const createCatalogue = (): Catalogue => createCatalogueOf(SETUPS, memoryCupboard());
