import { isolated, quoted } from "../core/lib/direction";
import { refused } from "../core/lib/result";
import { readThing } from "../document/desk-file";
import { MAX_SETUP_BYTES } from "../document/limits";
import { printSetup } from "../document/read-setup";
import type { SetupFile } from "../document/schema";
import { reasonOf } from "../text/words";
import { BACKUP_FORMAT, isInLines, readBackup, readBackupLines } from "./backup";
import { textLines, tooLarge } from "./lines";
import { type ReceivedThing, received } from "./received";

/** A file to be handed to the user. */
export interface ExportedFile {
  readonly name: string;
  readonly blob: Blob;
}

/** Largest backup that is read as one piece, bytes: more than the app ever wrote so, less than one text can be in any engine. */
const MAX_WHOLE_BACKUP = 2 ** 28;
/** In so much of its beginning a backup says that it is one, bytes. */
const HEAD = 200;

/** A name as a file's: letters, digits and hyphens of any script; `otherwise` where it has none. */
export const fileName = (name: string, otherwise = "setup"): string => {
  const words = name.toLowerCase().match(/[\p{L}\p{M}\p{N}]+/gu) ?? [otherwise];
  return [...words.join("-")].slice(0, 60).join("");
};

/** The text of the file of a setup, or of a desk by itself, read or not, as a file. */
export const exportText = (name: string, text: string, what: "setup" | "desk" = "setup"): ExportedFile => ({
  name: `${fileName(name, what)}.hatside${what === "setup" ? "" : "-desk"}.json`,
  blob: new Blob([text], { type: "application/json" }),
});

/** A setup as a file. */
export const exportFile = (file: SetupFile): ExportedFile => exportText(file.name, printSetup(file));

/**
 * Reads a file that the user chose or dropped: a setup, a desk, or a backup of several. Never rejects: what is wrong is said.
 * To be called in a worker: it takes as long as it takes.
 */
export const readFile = async (file: File): Promise<readonly ReceivedThing[]> => {
  const refuse = (why: string): readonly ReceivedThing[] => [refused(`${quoted(file.name)}: ${why}`)];
  try {
    const head = await file.slice(0, HEAD).text();
    if (isInLines(head)) return await readBackupLines(quoted(file.name), textLines(file, MAX_SETUP_BYTES));
    const isBackup = head.includes(`"${BACKUP_FORMAT}"`);
    const most = isBackup ? MAX_WHOLE_BACKUP : MAX_SETUP_BYTES;
    if (file.size > most) return refuse(tooLarge(file.size, most));
    // The decoder takes a byte order mark away.
    const text = new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
    const value: unknown = JSON.parse(text);
    if (isBackup) {
      const backup = readBackup(value);
      return backup.ok ? backup.things : refuse(backup.why);
    }
    const read = received(readThing(value));
    return read.ok ? [read] : refuse(read.why);
  } catch (error) {
    if (error instanceof SyntaxError) return refuse(`this is not JSON (${isolated(reasonOf(error))}).`);
    if (error instanceof TypeError) return refuse("this is not a text file.");
    return refuse(`it could not be read (${reasonOf(error)}).`);
  }
};
