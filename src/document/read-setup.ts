import { isolated } from "../core/lib/direction";
import { reasonOf } from "../text/words";
import { setupFields } from "./fields";
import { mend } from "./mend";
import { MIGRATIONS, type Migration, migrate } from "./migrate";
import { Refusal } from "./reader";
import type { SetupFile } from "./schema";

/** A setup from outside: read, with what had to be mended or left out, or not read at all and why. */
export type ReadSetup =
  | { readonly ok: true; readonly file: SetupFile; readonly notes: readonly string[] }
  | { readonly ok: false; readonly why: string };

/** More notes than this are only counted. */
const MAX_NOTES = 100;

/**
 * Reads a setup from outside, of this or any earlier version. What is missing or wrong in part is replaced by a
 * default and named; what would be lost refuses the whole. The result keeps every rule of the schema.
 * @param value parsed JSON; it is not changed
 */
export const readSetup = (value: unknown, migrations: readonly Migration[] = MIGRATIONS): ReadSetup => {
  const notes: string[] = [];
  try {
    const raw = migrate(value, migrations);
    const read = setupFields(raw, "", (at, says) => notes.push(`${at}: ${says}.`));
    const file = mend(read, (says) => notes.push(says));
    const over = notes.length - MAX_NOTES;
    return {
      ok: true,
      file,
      notes: over > 0 ? [...notes.slice(0, MAX_NOTES), `And ${over} more of the kind.`] : notes,
    };
  } catch (error) {
    if (error instanceof Refusal) return { ok: false, why: error.message };
    // Deeper than the engine goes, or a fault of ours: one setup that cannot be read must not keep others away.
    return { ok: false, why: `Hatside cannot read this setup: ${reasonOf(error)}.` };
  }
};

/** Reads a setup from the text of a file. */
export const readSetupText = (text: string): ReadSetup => {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return {
      ok: false,
      why: `This is not a setup of Hatside: it is not JSON (${isolated(reasonOf(error))}).`,
    };
  }
  return readSetup(value);
};

/** The text of a setup as it is kept, exported and shared. */
export const printSetup = (file: SetupFile): string => `${JSON.stringify(file, null, 1)}\n`;
