import { printSetup } from "../document/read-setup";
import type { SetupFile } from "../document/schema";

/** A setup as it lies on the shelf. */
export interface ShelfRecord {
  readonly name: string;
  /** When it was last changed, ms since 1970. */
  readonly changed: number;
  /** The setup's file, as it would be exported. */
  readonly text: string;
  /** The tab that wrote it last. */
  readonly writer: string;
  /** How often it was written. */
  readonly revision: number;
}

/** What a list of setups shows of one. */
export interface OnShelf {
  readonly id: string;
  readonly name: string;
  /** When it was last changed, ms since 1970. */
  readonly changed: number;
  /** Characters of its file. */
  readonly size: number;
}

/** What lies under a key as a record; something else becomes the text of one, so that it can be taken out as a file. */
export const recordOf = (value: unknown): ShelfRecord => {
  const from = (typeof value === "object" && value !== null ? value : {}) as {
    readonly [K in keyof ShelfRecord]?: unknown;
  };
  return {
    name: typeof from.name === "string" ? from.name : "Unreadable entry",
    changed: typeof from.changed === "number" ? from.changed : 0,
    text: typeof from.text === "string" ? from.text : (JSON.stringify(value) ?? ""),
    writer: typeof from.writer === "string" ? from.writer : "",
    revision: typeof from.revision === "number" ? from.revision : 0,
  };
};

/** A setup as a record that some tab writes now. */
export const newRecord = (file: SetupFile, writer: string, revision: number): ShelfRecord => ({
  name: file.name,
  changed: Date.now(),
  text: printSetup(file),
  writer,
  revision,
});

/** The line of a record in a list. */
export const lineOf = (id: string, { name, changed, text }: ShelfRecord): OnShelf => ({
  id,
  name,
  changed,
  size: text.length,
});

/** The text of a setup under another name, of whatever version it is; one that is not JSON stays as it is. */
export const renamedText = (text: string, name: string): string => {
  try {
    const file: unknown = JSON.parse(text);
    return typeof file === "object" && file !== null
      ? `${JSON.stringify({ ...file, name }, null, 1)}\n`
      : text;
  } catch {
    return text;
  }
};
