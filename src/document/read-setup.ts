import { type Result, refused } from "../core/lib/result";
import type { FileWord, ReadNote, ReadRefusal } from "../text/reading";
import { setupFields } from "./fields";
import { mend } from "./mend";
import { MIGRATIONS, type Migration, migrate } from "./migrate";
import { messageOf, Refusal } from "./reader";
import type { SetupFile } from "./schema";

/** Something from outside: read, with what had to be mended or left out, or not read at all and why. */
export type Read<F> = Result<{ file: F; notes: readonly ReadNote[] }, ReadRefusal>;

/** A setup from outside, read or not. */
export type ReadSetup = Read<SetupFile>;

/** More notes than this are only counted. */
const MAX_NOTES = 100;

/**
 * Reads something from outside, and never throws.
 * @param what it is called in a sentence
 * @param read is given a place for notes; throws `Refusal` where nothing can be taken
 */
export const readNoting = <F>(what: FileWord, read: (note: (note: ReadNote) => void) => F): Read<F> => {
  const notes: ReadNote[] = [];
  try {
    const file = read((note) => notes.push(note));
    const over = notes.length - MAX_NOTES;
    return {
      ok: true,
      file,
      notes: over > 0 ? [...notes.slice(0, MAX_NOTES), { code: "more", count: over }] : notes,
    };
  } catch (error) {
    if (error instanceof Refusal) return refused(error.why);
    // Deeper than the engine goes, or a fault of ours: one that cannot be read must not keep others away.
    return refused({ code: "own fault", what, reason: messageOf(error) });
  }
};

/** What a text of JSON says, read by `read`; a text that is none is refused. */
export const readText = <F>(what: FileWord, text: string, read: (value: unknown) => Read<F>): Read<F> => {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return refused({ code: "not JSON", what, reason: messageOf(error) });
  }
  return read(value);
};

/**
 * Reads a setup from outside, of this or any earlier version. What is missing or wrong in part is replaced by a
 * default and named; what would be lost refuses the whole. The result keeps every rule of the schema.
 * @param value parsed JSON; it is not changed
 */
export const readSetup = (value: unknown, migrations: readonly Migration[] = MIGRATIONS): ReadSetup =>
  readNoting("setup", (note) => {
    const raw = migrate(value, migrations);
    return mend(setupFields(raw, "", note), note);
  });

/** Reads a setup from the text of a file. */
export const readSetupText = (text: string): ReadSetup =>
  readText("setup", text, (value) => readSetup(value));

/** The text of a setup as it is kept, exported and shared. */
export const printSetup = (file: SetupFile): string => `${JSON.stringify(file, null, 1)}\n`;
