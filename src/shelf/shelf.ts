import { type ReadonlySignal, type Signal, signal } from "@preact/signals-core";
import { readSetupText } from "../document/check-file";
import { rename as renameSetup } from "../document/commands/settings";
import type { SetupFile } from "../document/schema";
import { load, readOnly, run } from "../document/store";
import { createAutosave, type Saving } from "./autosave";
import { createCatalogue, freshId, unlikely } from "./catalogue";
import { type Cupboard, memoryCupboard } from "./cupboard";
import { newRecord, type OnShelf, type Record, renamedText } from "./record";
import { troubleOf } from "./trouble";

/** Something to be told about setups that were opened or kept. */
export interface News {
  readonly says: string;
  /** One sentence for each thing. */
  readonly details: readonly string[];
  /** The file as it was, to be offered where it was not read whole. */
  readonly raw?: { readonly name: string; readonly text: string };
}

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
  /** Saves now what is not safe yet. */
  readonly flush: () => Promise<void>;
  /** Whether leaving now would lose something. */
  readonly isUnsaved: () => boolean;
  /** Reads the list, and the open setup where another tab changed it. */
  readonly reload: () => Promise<void>;
}

/** The worked example, loaded only where it is needed: at the very first start. */
const example = async (): Promise<SetupFile> => (await import("../document/example")).exampleSetup();

/**
 * A shelf. Commands that change it are refused by the screens while another tab edits.
 * @param openCupboard may reject: then everything stays in memory and `saving` says so
 */
export const createShelf = (openCupboard: () => Promise<Cupboard>): Shelf => {
  const me = unlikely();
  const catalogue = createCatalogue();
  const openId = signal<string | null>(null);
  const news = signal<readonly News[]>([]);
  /** Revision of the open setup when it was opened; 0 for one that is not on the shelf yet. */
  let opened = 0;
  /** The open setup as it was before it was mended: kept beside it once that is changed. */
  let unmended: Record | null = null;

  const tell = (says: string, more: Partial<Omit<News, "says">> = {}): void => {
    news.value = [...news.peek(), { says, details: [], ...more }];
  };

  const write = async (file: SetupFile): Promise<void> => {
    const id = openId.peek() ?? freshId();
    if (unmended) {
      const raw = { ...unmended, name: catalogue.freeName(`${unmended.name} as it was`) };
      await catalogue.change(freshId(), () => raw);
      unmended = null;
    }
    let isMine = true;
    await catalogue.change(id, (was) => {
      isMine = was ? was.writer === me || was.revision === opened : opened === 0;
      return isMine ? newRecord(file, me, (was?.revision ?? 0) + 1) : was;
    });
    if (!isMine) await keepAside(file);
  };
  const autosave = createAutosave(write);

  const show = (id: string, revision: number, file: SetupFile): void => {
    openId.value = id;
    opened = revision;
    unmended = null;
    load(file);
    autosave.begin(revision === 0 ? null : file);
  };
  /** Another tab wrote the open setup in the meantime: what was done here becomes a setup of its own. */
  const keepAside = async (file: SetupFile): Promise<void> => {
    const copy = { ...file, name: catalogue.freeName(file.name) };
    const id = freshId();
    await catalogue.change(id, () => newRecord(copy, me, 1));
    openId.value = id;
    opened = 1;
    run(renameSetup(copy.name));
    tell(`Another tab changed “${file.name}”. What was done here is kept as “${copy.name}”.`);
  };
  /** Shows a setup that lies on the shelf, or says why not. */
  const tryShow = (id: string, record: Record): boolean => {
    const result = readSetupText(record.text);
    const raw = { name: record.name, text: record.text };
    if (!result.ok) {
      tell(`“${record.name}” was not opened and stays as it is.`, { details: [result.why], raw });
      return false;
    }
    // A record that was never counted still lies there.
    show(id, Math.max(1, record.revision), result.file);
    if (result.notes.length > 0) {
      unmended = record;
      tell(`“${record.name}” was not read whole.`, { details: result.notes, raw });
    }
    return true;
  };
  /** Without it the newest is opened next time, so a failure is no trouble. */
  const remember = async (id: string): Promise<void> => {
    if (!readOnly.peek()) await catalogue.remember(id).catch(() => {});
  };
  /** Saves the open setup before another takes its place; false, and said, when that fails. */
  const leave = async (): Promise<boolean> => {
    await autosave.flush();
    if (!autosave.isUnsaved()) return true;
    tell("The open setup could not be saved, so it stays open. Save it as a file first, or try again.");
    return false;
  };
  const begin = async (file: SetupFile): Promise<void> => {
    const id = freshId();
    show(id, 0, { ...file, name: catalogue.freeName(file.name) });
    await autosave.flush();
    await remember(id);
  };
  const open = async (id: string): Promise<void> => {
    if (!(await leave())) return;
    try {
      if (tryShow(id, await catalogue.read(id))) await remember(id);
    } catch (error) {
      tell(`The setup was not opened: ${troubleOf(error)}.`);
    }
  };
  const openFirst = async (): Promise<void> => {
    const { records, last } = await catalogue.readAll();
    const order = new Set([last, ...catalogue.list.peek().map((line) => line.id)]);
    for (const id of order) {
      const record = typeof id === "string" ? records.get(id) : undefined;
      if (record && tryShow(id as string, record)) return;
    }
    await begin(await example());
  };

  return {
    list: catalogue.list,
    openId,
    saving: autosave.saving,
    news,
    start: async () => {
      try {
        catalogue.use(await openCupboard());
        await openFirst();
      } catch (error) {
        catalogue.use(memoryCupboard());
        autosave.giveUp(troubleOf(error));
        await begin(await example());
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
      await autosave.flush();
      const was = await catalogue.read(id);
      const name = catalogue.freeName(was.name);
      const copy = { ...was, name, text: renamedText(was.text, name), changed: Date.now() };
      await catalogue.change(freshId(), () => copy);
    },
    rename: async (id, name) => {
      if (id === openId.peek()) {
        run(renameSetup(name));
        return autosave.flush();
      }
      await catalogue.change(
        id,
        (was) =>
          was && {
            ...was,
            name,
            text: renamedText(was.text, name),
            changed: Date.now(),
            revision: was.revision + 1,
          },
      );
    },
    remove: async (id) => {
      await autosave.flush();
      const was = await catalogue.read(id);
      const wasOpen = id === openId.peek();
      await catalogue.change(id, () => null);
      if (wasOpen) await openFirst();
      return async () => {
        await catalogue.change(id, () => was);
        if (wasOpen) await open(id);
      };
    },
    textOf: async (id) => {
      await autosave.flush();
      return (await catalogue.read(id)).text;
    },
    texts: async () => {
      await autosave.flush();
      const { records } = await catalogue.readAll();
      return catalogue.list.peek().flatMap(({ id }) => records.get(id)?.text ?? []);
    },
    flush: autosave.flush,
    isUnsaved: () => autosave.isUnsaved() || autosave.saving.peek().state === "unavailable",
    reload: async () => {
      const { records } = await catalogue.readAll();
      const id = openId.peek() ?? "";
      const record = records.get(id);
      if (record && record.writer !== me && record.revision !== opened) tryShow(id, record);
      else if (!record && opened === 0) await openFirst();
    },
  };
};
