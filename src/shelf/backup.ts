import { type Clause, type Result, refused } from "../core/lib/result";
import { readThing, readThingText } from "../document/desk-file";
import { MAX_SETUP_BYTES } from "../document/limits";
import { glimpse, isFields } from "../document/reader";
import { formatGlimpse } from "../text/glimpse";
import { type Line, tooLarge } from "./lines";
import { type ReceivedThing, received } from "./received";
import type { Shelf } from "./shelf";
import { troubleOf } from "./trouble";

/** Names the format of a file with every setup and every saved desk in it. */
export const BACKUP_FORMAT = "hatside-backup";
/** Version of the backup that this code writes. */
const BACKUP_VERSION = 1;

/** A backup as it is written is JSON with one setup or desk on each line, so that any number of them is read line by line. */
const LINES = {
  first: `{"format":"${BACKUP_FORMAT}","version":${BACKUP_VERSION},"setups":[`,
  desks: `],"desks":[`,
  unread: `],"unread":[`,
  last: "]}",
} as const;

/** So many that cannot be read are named one by one; of more the number is said. */
const MAX_REFUSALS = 1000;

/** What is in a backup, before anything of it is kept; or why nothing is. */
export type BackupRead = Result<{ things: readonly ReceivedThing[] }, Clause>;

/** Each on a line of its own, with a comma between two. */
const separated = (lines: readonly string[]): string[] =>
  lines.map((line, at) => (at < lines.length - 1 ? `${line},\n` : `${line}\n`));

/**
 * Every saved setup and desk, as the parts of one file. What cannot be read here is in it too, as it lies there. In parts,
 * because one text has a largest size in every engine.
 * @param desks their files as they lie on the shelf
 */
export const printBackup = async (
  shelf: Pick<Shelf, "texts">,
  desks: readonly string[] = [],
): Promise<string[]> => {
  const unread: string[] = [];
  const inLines = (texts: readonly string[]): string[] =>
    texts.flatMap((text) => {
      try {
        return [JSON.stringify(JSON.parse(text))];
      } catch {
        unread.push(JSON.stringify(text));
        return [];
      }
    });
  const setupLines = inLines(await shelf.texts());
  const deskLines = inLines(desks);
  return [
    `${LINES.first}\n`,
    ...separated(setupLines),
    `${LINES.desks}\n`,
    ...separated(deskLines),
    `${LINES.unread}\n`,
    ...separated(unread),
    `${LINES.last}\n`,
  ];
};

/** Reads a backup that came as one piece: each by itself, so that one that is broken keeps none of the others away. */
export const readBackup = (value: unknown): BackupRead => {
  if (!isFields(value) || value.format !== BACKUP_FORMAT) return refused("this is not a backup of Hatside.");
  const { version, setups, desks, unread } = value;
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return refused(
      `version: ${formatGlimpse(glimpse(version))} is not a version. Allowed: 1 to ${BACKUP_VERSION}.`,
    );
  if (version > BACKUP_VERSION)
    return refused(
      `this backup is from a newer Hatside (its version is ${version}, this app reads up to ${BACKUP_VERSION}). Update the app, then import it again.`,
    );
  if (!Array.isArray(setups)) return refused(`setups: ${formatGlimpse(glimpse(setups))} is not a list.`);
  if (desks !== undefined && !Array.isArray(desks))
    return refused(`desks: ${formatGlimpse(glimpse(desks))} is not a list.`);
  const texts = Array.isArray(unread) ? unread.filter((text) => typeof text === "string") : [];
  const things = [...setups, ...(desks ?? [])];
  return { ok: true, things: [...things.map(readThing), ...texts.map(readThingText)].map(received) };
};

/** Whether a backup has what is in it on lines, by its beginning. */
export const isInLines = (head: string): boolean => head.startsWith(`${LINES.first}\n`);

/**
 * Reads a backup on lines, however many they are. One that was cut off gives all that arrived whole.
 * @param name of the file, to begin a sentence
 * @param lines as `linesOf` gives them
 */
export const readBackupLines = async (
  name: string,
  lines: AsyncIterable<Line>,
): Promise<readonly ReceivedThing[]> => {
  const things: ReceivedThing[] = [];
  let unreadable = 0;
  let isUnread = false;
  let isWhole = false;
  const take = (read: ReceivedThing): void => {
    if (!read.ok) unreadable += 1;
    if (read.ok || unreadable <= MAX_REFUSALS) things.push(read);
  };
  const readLine = ({ text, size }: Line): ReceivedThing => {
    if (text === null) return refused(tooLarge(size, MAX_SETUP_BYTES));
    const line = text.replace(/,$/, "");
    const read = received(readThingText(line));
    if (!isUnread) return read;
    const was: unknown = JSON.parse(line);
    return typeof was === "string" ? received(readThingText(was)) : read;
  };
  for await (const line of lines) {
    if (line.text === LINES.first || line.text === LINES.desks) continue;
    if (line.text === LINES.unread) isUnread = true;
    else if (line.text === LINES.last) isWhole = true;
    else take(readLine(line));
  }
  const over = unreadable - MAX_REFUSALS;
  if (over > 0) things.push(refused(`${over} more setups cannot be read.`));
  if (!isWhole) things.push(refused(`${name} was cut off. The setups that arrived whole are listed.`));
  return things;
};

/**
 * Puts what was in a backup on the shelf, each as a new one under a free name: nothing there is overwritten.
 * @param put puts one of them there; rejects when it cannot be kept
 * @returns how many were put there, and why no more
 */
export const restore = async <F>(
  { put }: { readonly put: (file: F) => Promise<unknown> },
  files: readonly F[],
): Promise<{ readonly done: number; readonly why?: string }> => {
  let done = 0;
  try {
    for (const file of files) {
      await put(file);
      done += 1;
    }
    return { done };
  } catch (error) {
    return { done, why: troubleOf(error) };
  }
};
