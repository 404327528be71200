import { LIMITS } from "../document/limits";
import { guessMapping, hasHeader, type Mapping } from "./csv-columns";
import { decodeText } from "./csv-decode";

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

const refused = (says: string): Opened => ({ ok: false, says });
const grouped = (n: number): string => n.toLocaleString("en-GB");

const isDelimiter = (text: string): text is Delimiter => (DELIMITERS as readonly string[]).includes(text);

/** Guesses from the beginning: the delimiter that cuts most rows into equally many cells. */
const guessed = async (text: string): Promise<Delimiter> => {
  const { default: papa } = await import("papaparse");
  const head = text.slice(0, 20_000);
  const { meta } = papa.parse(head, {
    delimiter: "",
    newline: "\n",
    preview: 20,
    delimitersToGuess: DELIMITERS,
  });
  return isDelimiter(meta.delimiter) ? meta.delimiter : ",";
};

const FAULTS: { readonly [code: string]: string } = {
  MissingQuotes: "a quotation mark is opened and never closed",
  InvalidQuotes: "there is more behind a closing quotation mark",
};

/** Spreadsheets may name the delimiter in a first line of its own. */
const NAMED = /^sep=([,;\t|])\n/i;

/** Cuts a text into a table. */
const tableOf = async (text: string, notes: readonly string[], wanted?: Delimiter): Promise<Opened> => {
  const named = NAMED.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const delimiter = wanted ?? (named?.[1] as Delimiter | undefined) ?? (await guessed(body));
  const { default: papa } = await import("papaparse");
  const first = named ? 2 : 1;
  const { data, errors } = papa.parse(body, { delimiter, newline: "\n", preview: CSV_LIMITS.blankRows + 1 });
  const fault = errors.find((e) => FAULTS[e.code]);
  if (fault) return refused(`Row ${(fault.row ?? 0) + first}: ${FAULTS[fault.code]}. Nothing was taken in.`);
  const rows = data
    .map((cells, i) => ({ number: i + first, cells }))
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== ""));
  const table = rows.map((r) => r.cells);
  const width = table.reduce((most, cells) => Math.max(most, cells.length), 0);
  if (width > CSV_LIMITS.columns)
    return refused(
      `${grouped(width)} columns: too many. Allowed: ${CSV_LIMITS.columns}. Is the ${DELIMITER_NAMES[delimiter]} really the delimiter?`,
    );
  const header = hasHeader(table);
  if (data.length > CSV_LIMITS.blankRows || rows.length - Number(header) > CSV_LIMITS.rows) {
    const lines = grouped(body.split("\n").length - Number(body.endsWith("\n")));
    return refused(`${lines} rows: too many. Allowed: ${CSV_LIMITS.rows} sources. Nothing was taken in.`);
  }
  const one = width === 1 ? ["The file has one column only: it is taken for the names."] : [];
  return {
    ok: true,
    table: { rows, delimiter, header, mapping: guessMapping(table, header), notes: [...notes, ...one] },
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
