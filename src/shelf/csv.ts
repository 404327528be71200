import { LIMITS } from "../document/limits";
import { guessMapping, hasHeader, type Mapping } from "./csv-columns";
import { type CutFault, cutRows, guessDelimiter } from "./csv-cut";
import { decodeText, NOTHING_BUT_BLANKS } from "./csv-decode";

/** What may stand between two cells. */
export const DELIMITERS = [",", ";", "\t", "|"] as const;
/** One of them. */
export type Delimiter = (typeof DELIMITERS)[number];

/** What they are called. */
export const DELIMITER_NAMES: { readonly [delimiter in Delimiter]: string } = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "bar",
};

/** What a file may be: more is refused before it is read, so that nothing freezes. */
export const CSV_LIMITS = {
  /** 512 sources with every column filled take a tenth of it. */
  bytes: 1_000_000,
  /** Rows with something in them, besides the header. */
  rows: LIMITS.sources,
  /** Rows with blank ones: spreadsheets write hundreds of them behind the last. */
  blankRows: 5000,
  columns: 64,
  /** Characters of a cell. */
  cell: 1000,
  /** Letters of a name. */
  name: 200,
} as const;

/** A row of a file and its number in it, from 1. */
export interface CsvRow {
  readonly number: number;
  readonly cells: readonly string[];
}

/** A file as a table, before anything is made of it. */
export interface CsvTable {
  /** Rows that have something in them, the header among them. */
  readonly rows: readonly CsvRow[];
  readonly delimiter: Delimiter;
  /** The first row names the columns: a guess that the user may change. */
  readonly header: boolean;
  /** Which column is which: a guess that the user may change. */
  readonly mapping: Mapping;
  /** What is to be known of the file, in sentences. */
  readonly notes: readonly string[];
}

/** A file as a table, or why it is none. */
export type Opened =
  | { readonly ok: true; readonly table: CsvTable }
  | { readonly ok: false; readonly says: string };

/** How much of the beginning tells the delimiter, characters. */
const GUESS = 20_000;

const refused = (says: string): Opened => ({ ok: false, says });
const grouped = (n: number): string => n.toLocaleString("en-GB");

const FAULTS: { readonly [fault in Exclude<CutFault, "rows">]: string } = {
  "open quote": "a quotation mark is opened and never closed",
  "behind quote": "there is more behind a closing quotation mark",
  cell: `a cell with more than ${grouped(CSV_LIMITS.cell)} characters`,
  columns: `more than ${CSV_LIMITS.columns} columns`,
};

const tooMany = (text: string): Opened => {
  const lines = text.split("\n").length - Number(text.endsWith("\n"));
  return refused(
    `${grouped(lines)} rows: too many. Allowed: ${CSV_LIMITS.rows} sources. Nothing was taken in.`,
  );
};

/** Spreadsheets may name the delimiter in a first line of its own. */
const NAMED = /^sep=([,;\t|])\n/i;

/** Cuts a text into a table. */
const tableOf = (text: string, notes: readonly string[], wanted?: Delimiter): Opened => {
  const named = NAMED.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const delimiter =
    wanted ?? (named?.[1] as Delimiter | undefined) ?? guessDelimiter(body.slice(0, GUESS), DELIMITERS);
  const first = named ? 2 : 1;
  const { rows: cut, fault } = cutRows(body, delimiter, { ...CSV_LIMITS, rows: CSV_LIMITS.blankRows });
  if (fault === "rows") return tooMany(body);
  if (fault) {
    const ask = fault === "columns" ? ` Is the ${DELIMITER_NAMES[delimiter]} really the delimiter?` : "";
    return refused(`Row ${cut.length + first}: ${FAULTS[fault]}.${ask} Nothing was taken in.`);
  }
  const rows = cut
    .map((cells, i) => ({ number: i + first, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  if (rows.length === 0) return refused(NOTHING_BUT_BLANKS);
  const table = rows.map((r) => r.cells);
  const header = hasHeader(table);
  if (rows.length - Number(header) > CSV_LIMITS.rows) return tooMany(body);
  const one = table.every((cells) => cells.length === 1);
  return {
    ok: true,
    table: {
      rows,
      delimiter,
      header,
      mapping: guessMapping(table, header),
      notes: one ? [...notes, "The file has one column only: it is taken for the names."] : notes,
    },
  };
};

/**
 * Opens a file as a table: any of the delimiters, quoted cells with line ends in them, UTF-8, UTF-16 or Windows-1252,
 * with or without a mark at the beginning. Nothing is made of it yet: that is `readList`.
 * @param wanted the delimiter where the user knows better; guessed otherwise
 */
export const openCsv = async (file: Blob, wanted?: Delimiter): Promise<Opened> => {
  if (file.size > CSV_LIMITS.bytes) {
    const size = (file.size / 1e6).toFixed(1);
    return refused(
      `${size} MB: too large for an input list. Allowed: ${CSV_LIMITS.bytes / 1e6} MB and ${CSV_LIMITS.rows} sources. Nothing was taken in.`,
    );
  }
  const decoded = decodeText(new Uint8Array(await file.arrayBuffer()));
  return decoded.ok ? tableOf(decoded.text, decoded.notes, wanted) : refused(decoded.says);
};
