import { type ReadonlySignal, signal } from "@preact/signals-core";
import type { SetupFile } from "../document/schema";
import { canUndo, load, nameAsKept } from "../document/store";
import { createAutosave, type Saving } from "./autosave";
import { type Catalogue, freshId } from "./catalogue";
import { newRecord, type ShelfRecord } from "./record";

/** The setup that is open, and its way to the shelf. */
export interface OpenedSetup {
  /** Null before anything was opened. */
  readonly id: ReadonlySignal<string | null>;
  readonly saving: ReadonlySignal<Saving>;
  /** Opens a setup that lies on the shelf; one that was mended stays there as it was once it is changed. */
  readonly show: (id: string, record: ShelfRecord, file: SetupFile, isMended: boolean) => void;
  /** Opens a setup that is not on the shelf yet, and puts it there. */
  readonly begin: (file: SetupFile) => Promise<void>;
  /** Saves now what is not safe yet. */
  readonly flush: () => Promise<void>;
  /** As `Shelf.handOver`. */
  readonly handOver: () => void;
  /** Whether something of it is not on the shelf. */
  readonly isUnsaved: () => boolean;
  /** Whether it was changed since it was opened. */
  readonly isTouched: () => boolean;
  /** Whether it has never been on the shelf. */
  readonly isNew: () => boolean;
  /** Whether a record of it was written by another tab since it was opened. */
  readonly isNews: (record: ShelfRecord) => boolean;
  /** Nothing can be kept: said instead of "saved" from now on. */
  readonly giveUp: (why: string) => void;
}

/**
 * What is open in this tab.
 * @param me letters that no other tab has
 * @param moved told when another tab has taken its place: what was done here is kept under another name then
 */
export const createOpened = (
  catalogue: Catalogue,
  me: string,
  moved: (from: string, to: string) => void,
): OpenedSetup => {
  const id = signal<string | null>(null);
  /** Its revision when it was opened; 0 for one that is not on the shelf yet. */
  let revision = 0;
  /** The highest revision of it that is known here. */
  let latest = 0;
  /** It as it was before it was mended, and that one's way to a place beside it. */
  let unmended: { readonly record: ShelfRecord; kept: Promise<void> | null } | null = null;
  /** Its way to another place, once another tab has taken its own. */
  let aside: Promise<void> | null = null;

  /** Once, however many writes ask, and again where that failed. */
  const keepUnmended = async (it: NonNullable<typeof unmended>): Promise<void> => {
    const { record } = it;
    it.kept ??= catalogue.change(freshId(), () => ({
      ...record,
      name: catalogue.freeName(`${record.name} as it was`),
    }));
    try {
      await it.kept;
      if (unmended === it) unmended = null;
    } catch (error) {
      it.kept = null;
      throw error;
    }
  };
  const keepAside = async (file: SetupFile): Promise<void> => {
    const copy = { ...file, name: catalogue.freeName(file.name) };
    const at = freshId();
    await catalogue.change(at, () => newRecord(copy, me, 1));
    id.value = at;
    revision = 1;
    latest = 1;
    nameAsKept(copy.name);
    moved(file.name, copy.name);
  };
  const write = async (file: SetupFile, isLast = false): Promise<void> => {
    const at = id.peek() ?? freshId();
    // Not waited for where there is none: a page that is being closed hands its last write over at once.
    if (unmended) await keepUnmended(unmended);
    const fresh = newRecord(file, me, 1);
    let isMine = true;
    const change = (was: ShelfRecord | null): ShelfRecord | null => {
      isMine = was ? was.writer === me || was.revision === revision : revision === 0;
      if (!isMine) return was;
      const next = (was?.revision ?? 0) + 1;
      latest = Math.max(latest, next);
      return { ...fresh, revision: next };
    };
    await catalogue.change(at, change, isLast && !aside ? { writer: me, revision: latest } : undefined);
    if (isMine) return;
    // An earlier write takes it to another place, or has: this one follows.
    if (aside) await aside;
    if (id.peek() !== at) return write(file);
    aside = keepAside(file);
    return aside.finally(() => {
      aside = null;
    });
  };
  const autosave = createAutosave(write);

  return {
    id,
    saving: autosave.saving,
    show: (at, record, file, isMended) => {
      id.value = at;
      // A record that was never counted still lies there.
      revision = Math.max(1, record.revision);
      latest = revision;
      unmended = isMended ? { record, kept: null } : null;
      load(file);
      autosave.begin(file);
    },
    begin: (file) => {
      id.value = freshId();
      revision = 0;
      latest = 0;
      unmended = null;
      load(file);
      autosave.begin(null);
      return autosave.flush();
    },
    flush: autosave.flush,
    handOver: autosave.handOver,
    isUnsaved: autosave.isUnsaved,
    isTouched: () => canUndo.peek() !== null,
    isNew: () => revision === 0,
    isNews: (record) => record.writer !== me && record.revision !== revision,
    giveUp: autosave.giveUp,
  };
};
