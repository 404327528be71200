import { type Result, refused } from "../core/lib/result";
import { LIMITS } from "../document/limits";
import type { CsvNote, CsvRefusal } from "../text/csv";
import { guessMapping, headerRow, knownHeaders, type Mapping } from "./csv-columns";
import { cutRows, guessDelimiter } from "./csv-cut";
import { decodeText } from "./csv-decode";

/** What stands between two cells: one character, but no quotation mark and no line end. */
export type Delimiter = string;

/** Whether a text can stand between two cells. */
export const isDelimiter = (text: string): text is Delimiter => /^[^"\r\n]$/.test(text);

/** The usual ones. */
export const DELIMITERS = [",", ";", "\t", "|"] as const;

/** What the usual ones are called. */
export const DELIMITER_NAMES: { readonly [delimiter: Delimiter]: string } = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "bar",
} satisfies { readonly [delimiter in (typeof DELIMITERS)[number]]: string };

/** What a file may be: more is refused before it is read, so that nothing freezes. */
export const CSV_LIMITS = {
  /** 512 channels with every field filled and sends into all 32 buses take half of it. */
  bytes: 1_000_000,
  /** Rows with something in them, besides the header. */
  rows: LIMITS.channels,
  /** Rows with blank ones: spreadsheets write hundreds of them behind the last. */
  blankRows: 5000,
  columns: 64,
  /** Characters of a cell. */
  cell: 1000,
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
  /** What is to be known of the file. */
  readonly notes: readonly CsvNote[];
}

/** A file as a table, or why it is none. */
export type OpenedCsv = Result<{ table: CsvTable }, CsvRefusal>;

/** How much of the beginning tells the delimiter, characters. */
const GUESS = 20_000;
/** How much of a first line is looked through for headers, characters, and for how many marks. */
const FIRST_LINE = 2000;
const MARKS = 40;

const tooMany = (text: string): OpenedCsv => {
  const rows = text.split("\n").length - Number(text.endsWith("\n"));
  return refused({ code: "many rows", rows, most: CSV_LIMITS.rows });
};

/** Spreadsheets may name the delimiter in a first line of its own. */
const NAMED = /^sep=([^"\n])\n/i;

/**
 * The delimiter: the mark that cuts most well-known headers out of the first line, whichever it is; where none cuts
 * out two, the usual one that cuts most rows alike.
 */
const guess = (text: string): Delimiter => {
  const line = text.slice(0, FIRST_LINE).split("\n", 1)[0] ?? "";
  const marks = [...new Set(line.match(/[^\p{L}\p{N} "]/gu))].filter(isDelimiter).slice(0, MARKS);
  const headers = (mark: Delimiter): number =>
    knownHeaders(cutRows(line, mark, { ...CSV_LIMITS, rows: 1 }).rows[0] ?? []);
  const counts = marks.map((mark) => ({ mark, count: headers(mark) }));
  const best = counts.reduce((most, c) => (c.count > most.count ? c : most), { mark: "", count: 1 });
  return best.count > 1 ? best.mark : guessDelimiter(text.slice(0, GUESS), DELIMITERS);
};

/** Cuts a text into a table. */
const tableOf = (text: string, notes: readonly CsvNote[], wanted?: Delimiter): OpenedCsv => {
  const named = NAMED.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const delimiter = wanted ?? named?.[1] ?? guess(body);
  const first = named ? 2 : 1;
  const { rows: cut, fault } = cutRows(body, delimiter, { ...CSV_LIMITS, rows: CSV_LIMITS.blankRows });
  if (fault === "rows") return tooMany(body);
  const row = cut.length + first;
  if (fault === "columns") {
    const called = DELIMITER_NAMES[delimiter] ?? `“${delimiter}”`;
    return refused({ code: "many columns", row, most: CSV_LIMITS.columns, delimiter: called });
  }
  if (fault === "cell") return refused({ code: "long cell", row, most: CSV_LIMITS.cell });
  if (fault) return refused({ code: fault, row });
  const all = cut
    .map((cells, i) => ({ number: i + first, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  if (all.length === 0) return refused({ code: "blank" });
  const at = headerRow(all.map(({ cells }) => cells));
  const header = at >= 0;
  const rows = all.slice(Math.max(at, 0));
  const table = rows.map(({ cells }) => cells);
  if (rows.length - Number(header) > CSV_LIMITS.rows) return tooMany(body);
  const one = table.every((cells) => cells.length === 1);
  const above = all.slice(0, Math.max(at, 0)).flatMap(({ cells }) => cells.filter((c) => c.trim() !== ""));
  const known: CsvNote[] = [
    ...notes,
    ...(above.length === 0 ? [] : [{ code: "above the headers", cells: above } as const]),
    ...(one ? [{ code: "one column" } as const] : []),
  ];
  return {
    ok: true,
    table: {
      rows,
      delimiter,
      header,
      mapping: guessMapping(table, header),
      notes: known,
    },
  };
};

/**
 * Opens a file as a table: any delimiter, quoted cells with line ends in them, UTF-8, UTF-16 or Windows-1252,
 * with or without a mark at the beginning. Nothing is made of it yet: that is `readList`.
 * @param wanted the delimiter where the user knows better; guessed otherwise
 */
export const openCsv = async (file: Blob, wanted?: Delimiter): Promise<OpenedCsv> => {
  const { bytes: most, rows } = CSV_LIMITS;
  if (file.size > most) return refused({ code: "large", bytes: file.size, most, rows });
  const decoded = decodeText(new Uint8Array(await file.arrayBuffer()));
  return decoded.ok ? tableOf(decoded.text, decoded.notes, wanted) : decoded;
};
