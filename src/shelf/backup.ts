import { type ReadSetup, readSetup, readSetupText } from "../document/read-setup";
import { isFields, show } from "../document/reader";
import type { SetupFile } from "../document/schema";
import type { Shelf } from "./shelf";
import { troubleOf } from "./trouble";

/** Names the format of a file with every setup in it. */
export const BACKUP_FORMAT = "hatside-backup";
/** Version of the backup that this code writes. */
const BACKUP_VERSION = 1;

const MAX_SETUPS = 1000;

/** What is in a backup, before anything of it is put on the shelf; or why nothing is. */
export type BackupRead =
  | { readonly ok: true; readonly setups: readonly ReadSetup[] }
  | { readonly ok: false; readonly why: string };

/** Every setup on the shelf in one text. What cannot be read here is in it too, as it lies there. */
export const printBackup = async (shelf: Pick<Shelf, "texts">): Promise<string> => {
  const setups: unknown[] = [];
  const unread: string[] = [];
  for (const text of await shelf.texts()) {
    try {
      setups.push(JSON.parse(text));
    } catch {
      unread.push(text);
    }
  }
  return `${JSON.stringify({ format: BACKUP_FORMAT, version: BACKUP_VERSION, setups, unread }, null, 1)}\n`;
};

/** Reads a backup: each setup by itself, so that one that is broken keeps none of the others away. */
export const readBackup = (value: unknown): BackupRead => {
  const no = (why: string) => ({ ok: false, why }) as const;
  if (!isFields(value) || value.format !== BACKUP_FORMAT) return no("this is not a backup of Hatside.");
  const { version, setups, unread } = value;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return no(`version: ${show(version)} is not a version. Allowed: 1 to ${BACKUP_VERSION}.`);
  if (version > BACKUP_VERSION)
    return no(
      `this backup is from a newer Hatside (its version is ${version}, this app reads up to ${BACKUP_VERSION}). Update the app, then open it again.`,
    );
  if (!Array.isArray(setups)) return no(`setups: ${show(setups)} is not a list.`);
  if (setups.length > MAX_SETUPS)
    return no(`setups: ${setups.length} are too many. Allowed: up to ${MAX_SETUPS}.`);
  const texts = Array.isArray(unread) ? unread.filter((text) => typeof text === "string") : [];
  return { ok: true, setups: [...setups.map((setup) => readSetup(setup)), ...texts.map(readSetupText)] };
};

/**
 * Puts setups of a backup on the shelf, each as a new one under a free name: nothing there is overwritten.
 * @returns how many were put there, and why no more
 */
export const restore = async (
  shelf: Pick<Shelf, "put">,
  setups: readonly SetupFile[],
): Promise<{ readonly done: number; readonly why?: string }> => {
  let done = 0;
  try {
    for (const setup of setups) {
      await shelf.put(setup);
      done += 1;
    }
    return { done };
  } catch (error) {
    return { done, why: troubleOf(error) };
  }
};
