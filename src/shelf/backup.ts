import { MAX_SETUP_BYTES } from "../document/limits";
import { type ReadSetup, readSetup, readSetupText } from "../document/read-setup";
import { isFields, show } from "../document/reader";
import type { SetupFile } from "../document/schema";
import { type Line, tooLarge } from "./lines";
import type { Shelf } from "./shelf";
import { troubleOf } from "./trouble";

/** Names the format of a file with every setup in it. */
export const BACKUP_FORMAT = "hatside-backup";
/** Version of the backup that this code writes. */
const BACKUP_VERSION = 1;

/** A backup as it is written is JSON with one setup on each line, so that any number of them is read line by line. */
const LINES = {
  first: `{"format":"${BACKUP_FORMAT}","version":${BACKUP_VERSION},"setups":[`,
  unread: `],"unread":[`,
  last: "]}",
} as const;

/** So many setups that cannot be read are named one by one; of more the number is said. */
const MAX_REFUSALS = 1000;

/** What is in a backup, before anything of it is kept; or why nothing is. */
export type BackupRead =
  | { readonly ok: true; readonly setups: readonly ReadSetup[] }
  | { readonly ok: false; readonly why: string };

/** Each on a line of its own, with a comma between two. */
const separated = (lines: readonly string[]): string[] =>
  lines.map((line, at) => (at < lines.length - 1 ? `${line},\n` : `${line}\n`));

/**
 * Every saved setup, as the parts of one file. What cannot be read here is in it too, as it lies there. In parts, because one
 * text has a largest size in every engine.
 */
export const printBackup = async (shelf: Pick<Shelf, "texts">): Promise<string[]> => {
  const setups: string[] = [];
  const unread: string[] = [];
  for (const text of await shelf.texts()) {
    try {
      setups.push(JSON.stringify(JSON.parse(text)));
    } catch {
      unread.push(JSON.stringify(text));
    }
  }
  return [
    `${LINES.first}\n`,
    ...separated(setups),
    `${LINES.unread}\n`,
    ...separated(unread),
    `${LINES.last}\n`,
  ];
};

/** Reads a backup that came as one piece: each setup by itself, so that one that is broken keeps none of the others away. */
export const readBackup = (value: unknown): BackupRead => {
  const no = (why: string) => ({ ok: false, why }) as const;
  if (!isFields(value) || value.format !== BACKUP_FORMAT) return no("this is not a backup of Hatside.");
  const { version, setups, unread } = value;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return no(`version: ${show(version)} is not a version. Allowed: 1 to ${BACKUP_VERSION}.`);
  if (version > BACKUP_VERSION)
    return no(
      `this backup is from a newer Hatside (its version is ${version}, this app reads up to ${BACKUP_VERSION}). Update the app, then import it again.`,
    );
  if (!Array.isArray(setups)) return no(`setups: ${show(setups)} is not a list.`);
  const texts = Array.isArray(unread) ? unread.filter((text) => typeof text === "string") : [];
  return { ok: true, setups: [...setups.map((setup) => readSetup(setup)), ...texts.map(readSetupText)] };
};

/** Whether a backup has its setups on lines, by its beginning. */
export const isInLines = (head: string): boolean => head.startsWith(`${LINES.first}\n`);

/**
 * Reads a backup with its setups on lines, however many they are. One that was cut off gives all that arrived whole.
 * @param name of the file, to begin a sentence
 * @param lines as `linesOf` gives them
 */
export const readBackupLines = async (
  name: string,
  lines: AsyncIterable<Line>,
): Promise<readonly ReadSetup[]> => {
  const setups: ReadSetup[] = [];
  let refused = 0;
  let isUnread = false;
  let isWhole = false;
  const take = (read: ReadSetup): void => {
    if (!read.ok) refused += 1;
    if (read.ok || refused <= MAX_REFUSALS) setups.push(read);
  };
  const readLine = ({ text, size }: Line): ReadSetup => {
    if (text === null) return { ok: false, why: tooLarge(size, MAX_SETUP_BYTES) };
    const line = text.replace(/,$/, "");
    const read = readSetupText(line);
    if (!isUnread) return read;
    const was: unknown = JSON.parse(line);
    return typeof was === "string" ? readSetupText(was) : read;
  };
  for await (const line of lines) {
    if (line.text === LINES.first) continue;
    if (line.text === LINES.unread) isUnread = true;
    else if (line.text === LINES.last) isWhole = true;
    else take(readLine(line));
  }
  const over = refused - MAX_REFUSALS;
  if (over > 0) setups.push({ ok: false, why: `${over} more setups cannot be read.` });
  if (!isWhole)
    setups.push({ ok: false, why: `${name} was cut off. The setups that arrived whole are listed.` });
  return setups;
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
