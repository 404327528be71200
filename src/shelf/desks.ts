import type { ReadonlySignal } from "@preact/signals-core";
import { uniqueName } from "../core/model/ids";
import type { Desk } from "../core/model/setup";
import { deskFile, deskOf, printDesk, type ReadDesk, readDesk, readDeskText } from "../document/desk-file";
import { createCatalogueOf, freshId } from "./catalogue";
import type { Cupboard } from "./cupboard";
import { lineOf, type OnShelf, renamedText, type ShelfRecord } from "./record";

/** A desk on the shelf; one that cannot be read stays there as it is. */
export interface SavedDesk extends OnShelf {
  readonly read: ReadDesk;
}

/** The desk that was used last, and by which setup; null: it was chosen for a new one. */
export interface LastDesk {
  readonly setup: string | null;
  readonly desk: Desk;
}

/** The desks that are kept by themselves, to be copied into setups. Everything that waits may reject: full, refused, gone. */
export interface Desks {
  /** Last changed first; empty before `readAll`. */
  readonly list: ReadonlySignal<readonly SavedDesk[]>;
  /** Reads the list anew. */
  readonly readAll: () => Promise<void>;
  /** A name that no saved desk has. */
  readonly freeName: (name: string) => string;
  /** Saves a desk as a new one under a free name, which is returned. */
  readonly put: (desk: Desk) => Promise<string>;
  /** Saves a desk in the place of one; what is returned puts that back. */
  readonly replace: (id: string, desk: Desk) => Promise<() => Promise<void>>;
  /** Renames one; a name that another has gets a number. Returns the name. */
  readonly rename: (id: string, name: string) => Promise<string>;
  /** Saves a copy of one under a free name, which is returned. */
  readonly duplicate: (id: string) => Promise<string>;
  /** Takes one away; what is returned puts it back as it was. */
  readonly remove: (id: string) => Promise<() => Promise<void>>;
  /** The file of one as it lies there, readable or not. */
  readonly textOf: (id: string) => Promise<string>;
  /** The files of all as they lie there, last changed first. */
  readonly texts: () => Promise<readonly string[]>;
  /** The desk that was used last; null where none was, or it cannot be read. */
  readonly recall: () => Promise<LastDesk | null>;
  /** Notes which desk was used last, saved by itself or not. */
  readonly remember: (last: LastDesk) => Promise<void>;
}

const PREFIX = "desk-";

/** A desk as a record; one tab edits at a time, so nothing is asked of its writer. */
const recordOfDesk = (desk: Desk): ShelfRecord => ({
  name: desk.name,
  changed: Date.now(),
  text: printDesk(desk),
  writer: "",
  revision: 1,
});

const lastOf = (value: unknown): LastDesk | null => {
  const { setup, desk } = (typeof value === "object" && value !== null ? value : {}) as {
    readonly [K in keyof LastDesk]?: unknown;
  };
  const read = readDesk(desk);
  return read.ok ? { setup: typeof setup === "string" ? setup : null, desk: deskOf(read.file) } : null;
};

/** The desks in a cupboard: beside the setups, under keys that no setup has. */
export const createDesks = (cupboard: Cupboard): Desks => {
  const catalogue = createCatalogueOf(
    {
      prefix: PREFIX,
      last: "last-desk",
      line: (id, record): SavedDesk => ({ ...lineOf(id, record), read: readDeskText(record.text) }),
    },
    cupboard,
  );
  const { list, read, change, freeName } = catalogue;
  const back = (id: string, was: ShelfRecord) => (): Promise<void> => change(id, () => was);
  const readAll = async (): Promise<void> => {
    await catalogue.readAll();
  };
  return {
    list,
    readAll,
    freeName,
    put: async (desk) => {
      await readAll();
      const name = freeName(desk.name);
      const record = recordOfDesk({ ...desk, name });
      await change(freshId(PREFIX), () => record);
      return name;
    },
    replace: async (id, desk) => {
      const was = await read(id);
      const record = recordOfDesk(desk);
      await change(id, () => record);
      return back(id, was);
    },
    rename: async (id, name) => {
      const others = list.peek().filter((line) => line.id !== id);
      const free = uniqueName(name, others);
      await change(
        id,
        (was) => was && { ...was, name: free, text: renamedText(was.text, free), changed: Date.now() },
      );
      return free;
    },
    duplicate: async (id) => {
      const was = await read(id);
      const name = freeName(was.name);
      const copy = { ...was, name, text: renamedText(was.text, name), changed: Date.now() };
      await change(freshId(PREFIX), () => copy);
      return name;
    },
    remove: async (id) => {
      const was = await read(id);
      await change(id, () => null);
      return back(id, was);
    },
    textOf: async (id) => (await read(id)).text,
    texts: async () => {
      const { records } = await catalogue.readAll();
      return list.peek().flatMap(({ id }) => records.get(id)?.text ?? []);
    },
    recall: async () => lastOf(await catalogue.recall()),
    remember: ({ setup, desk }) => catalogue.remember({ setup, desk: deskFile(desk) }),
  };
};
