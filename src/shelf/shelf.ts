import { effect, type ReadonlySignal, type Signal, signal } from "@preact/signals-core";
import { quoted } from "../core/lib/direction";
import { rename as renameSetup } from "../document/commands/settings";
import { exampleSetup } from "../document/example";
import { readSetupText } from "../document/read-setup";
import type { SetupFile } from "../document/schema";
import { readOnly, run } from "../document/store";
import type { ReadNote, ReadRefusal } from "../text/reading";
import { formatCount } from "../text/words";
import type { Saving } from "./autosave";
import { createCatalogue, freshId, unlikely } from "./catalogue";
import { type Cupboard, memoryCupboard } from "./cupboard";
import { createOpened } from "./opened";
import { newRecord, type OnShelf, renamedText, type ShelfRecord } from "./record";
import type { ReadTally } from "./tally";
import { troubleOf } from "./trouble";

/** Something to be told about setups that were opened or kept. */
export interface News {
  readonly says: string;
  /** What of its file was not taken as it stood. */
  readonly notes: readonly ReadNote[];
  /** Why nothing of it was; null where something was, or nothing was to be read. */
  readonly why: ReadRefusal | null;
  /** The file as it was, to be offered where it was read only in part. */
  readonly raw?: { readonly name: string; readonly text: string };
}

const lost = (count: number): string =>
  `${formatCount(count, "setup")} saved here ${count === 1 ? "is" : "are"} lost: the browser has deleted its storage, as it does when it is damaged. Import a backup or a setup file, if you have one.`;

/** Every setup of this browser: named, listed, opened, kept. */
export interface Shelf {
  /** Last changed first. */
  readonly list: ReadonlySignal<readonly OnShelf[]>;
  /** The one that is open; null before `start` is done. */
  readonly openId: ReadonlySignal<string | null>;
  readonly saving: ReadonlySignal<Saving>;
  /** What is to be told, oldest first; take out what was read. */
  readonly news: Signal<readonly News[]>;
  /** Opens what was open last, else the newest that can be read, else the example. Never rejects: without storage it works in memory. */
  readonly start: () => Promise<void>;
  /** Opens a setup. One that cannot be read stays as it is, and `news` says why. */
  readonly open: (id: string) => Promise<void>;
  /** Opens a new setup under a free name; it is saved as any change is. */
  readonly add: (file: SetupFile) => Promise<void>;
  /** Puts a new setup on the shelf under a free name without opening it. Rejects when it cannot be kept. */
  readonly put: (file: SetupFile) => Promise<void>;
  /** Puts a copy of a setup on the shelf. Rejects when it cannot be kept. */
  readonly duplicate: (id: string) => Promise<void>;
  /** Renames a setup, open or not. Rejects when it cannot be kept. */
  readonly rename: (id: string, name: string) => Promise<void>;
  /** Takes a setup away; what is returned puts it back as it was. */
  readonly remove: (id: string) => Promise<() => Promise<void>>;
  /** The file of a setup as it lies there, readable or not. */
  readonly textOf: (id: string) => Promise<string>;
  /** The files of all setups as they lie there, last changed first. */
  readonly texts: () => Promise<readonly string[]>;
  /** Where the setups lie; saved desks lie there too, under keys of their own. */
  readonly cupboard: () => Cupboard;
  /** Saves now what is not safe yet. */
  readonly flush: () => Promise<void>;
  /** The page goes: hands over what is not safe yet, without asking whether another tab changed it meanwhile. */
  readonly handOver: () => void;
  /** Whether leaving now would lose something of the user's own. */
  readonly isUnsaved: () => boolean;
  /** Reads the list, and the open setup where another tab changed it; what could not be saved here stays open. */
  readonly reload: () => Promise<void>;
}

/**
 * A shelf. Commands that change it are refused by the screens while another tab edits.
 * @param openCupboard may reject: then everything stays in memory and `saving` says so
 * @param tally by which it is noticed that the browser has dropped every setup
 */
export const createShelf = (openCupboard: () => Promise<Cupboard>, tally?: ReadTally): Shelf => {
  const me = unlikely();
  const catalogue = createCatalogue();
  const news = signal<readonly News[]>([]);

  const tell = (says: string, more: Partial<Omit<News, "says">> = {}): void => {
    news.value = [...news.peek(), { says, notes: [], why: null, ...more }];
  };
  const opened = createOpened(catalogue, me, (from, to) =>
    tell(`Another tab changed ${quoted(from)}. Your changes here are saved as ${quoted(to)}.`),
  );
  /** Shows a setup that lies on the shelf, or says why not. */
  const tryShow = (id: string, record: ShelfRecord): boolean => {
    const result = readSetupText(record.text);
    const raw = { name: record.name, text: record.text };
    const called = quoted(record.name);
    if (!result.ok) {
      tell(`${called} was not opened and stays as it is.`, { why: result.why, raw });
      return false;
    }
    const isMended = result.notes.length > 0;
    opened.show(id, record, result.file, isMended);
    if (isMended) tell(`${called} was read only in part.`, { notes: result.notes, raw });
    return true;
  };
  /** Without it the newest is opened next time, so a failure is no trouble. */
  const remember = async (id: string | null): Promise<void> => {
    if (id !== null && !readOnly.peek()) await catalogue.remember(id).catch(() => {});
  };
  /** Saves the open setup before another takes its place; false, and said, when that fails. */
  const leave = async (): Promise<boolean> => {
    await opened.flush();
    if (!opened.isUnsaved()) return true;
    tell("The open setup could not be saved, so it stays open. Download it first, or try again.");
    return false;
  };
  const begin = async (file: SetupFile): Promise<void> => {
    await opened.begin({ ...file, name: catalogue.freeName(file.name) });
    await remember(opened.id.peek());
  };
  const open = async (id: string): Promise<void> => {
    if (!(await leave())) return;
    try {
      if (tryShow(id, await catalogue.read(id))) await remember(id);
    } catch (error) {
      tell(`The setup was not opened: ${troubleOf(error)}.`);
    }
  };
  const openAny = async (records: ReadonlyMap<string, ShelfRecord>, last: unknown): Promise<void> => {
    const order = new Set([last, ...catalogue.list.peek().map((line) => line.id)]);
    for (const id of order) {
      const record = typeof id === "string" ? records.get(id) : undefined;
      if (record && tryShow(id as string, record)) return;
    }
    await begin(exampleSetup());
  };
  const openFirst = async (): Promise<void> => {
    const { records, last } = await catalogue.readAll();
    return openAny(records, last);
  };

  return {
    list: catalogue.list,
    openId: opened.id,
    saving: opened.saving,
    news,
    start: async () => {
      try {
        catalogue.use(await openCupboard());
        const { records, last } = await catalogue.readAll();
        const had = records.size === 0 ? (tally?.read() ?? 0) : 0;
        if (had > 0) tell(lost(had));
        await openAny(records, last);
        effect(() => tally?.note(catalogue.list.value.length));
      } catch (error) {
        catalogue.use(memoryCupboard());
        opened.giveUp(troubleOf(error));
        await begin(exampleSetup());
      }
    },
    open,
    add: async (file) => {
      if (await leave()) await begin(file);
    },
    put: (file) => {
      const record = newRecord({ ...file, name: catalogue.freeName(file.name) }, me, 1);
      return catalogue.change(freshId(), () => record);
    },
    duplicate: async (id) => {
      await opened.flush();
      const was = await catalogue.read(id);
      const name = catalogue.freeName(was.name);
      const copy = { ...was, name, text: renamedText(was.text, name), changed: Date.now() };
      await catalogue.change(freshId(), () => copy);
    },
    rename: async (id, name) => {
      if (id === opened.id.peek()) {
        run(renameSetup(name));
        return opened.flush();
      }
      await catalogue.change(
        id,
        (was) =>
          was && {
            ...was,
            name,
            text: renamedText(was.text, name),
            changed: Date.now(),
            writer: me,
            revision: was.revision + 1,
          },
      );
    },
    remove: async (id) => {
      await opened.flush();
      const was = await catalogue.read(id);
      const wasOpen = id === opened.id.peek();
      await catalogue.change(id, () => null);
      if (wasOpen) await openFirst();
      return async () => {
        await catalogue.change(id, () => was);
        if (wasOpen) await open(id);
      };
    },
    textOf: async (id) => {
      await opened.flush();
      return (await catalogue.read(id)).text;
    },
    texts: async () => {
      await opened.flush();
      const { records } = await catalogue.readAll();
      return catalogue.list.peek().flatMap(({ id }) => records.get(id)?.text ?? []);
    },
    cupboard: catalogue.cupboard,
    flush: opened.flush,
    handOver: opened.handOver,
    isUnsaved: () =>
      opened.saving.peek().state === "unavailable"
        ? opened.isTouched() || catalogue.list.peek().length > 1
        : opened.isUnsaved(),
    reload: async () => {
      await opened.flush();
      const { records } = await catalogue.readAll();
      const id = opened.id.peek() ?? "";
      const record = records.get(id);
      if (record && opened.isNews(record) && !opened.isUnsaved()) tryShow(id, record);
      else if (!record && opened.isNew() && !opened.isTouched()) await openFirst();
    },
  };
};
