import { channelCell } from "../core/inputs/numbers";
import { keysOf } from "../core/lib/keys";

/** What a column of an input list may be. */
export type ListField =
  | "number"
  | "name"
  | "kind"
  | "piece"
  | "stereo"
  | "pan"
  | "muted"
  | "polarity"
  | "level"
  | "peak"
  | "keepSides"
  | "slot"
  | "tap"
  | "on"
  | "trim";

/** Which column each field is read from, by index from 0; null where none is. */
export type Mapping = { readonly [field in ListField]: number | null };

/** How a field is called, and the headers by which it is known. */
export interface FieldWords {
  /** Header as it is written. */
  readonly title: string;
  readonly known: readonly string[];
}

/** All fields in the order in which they are written. Headers as they are common in the trade, no source. */
export const FIELDS: { readonly [field in ListField]: FieldWords } = {
  number: {
    title: "Ch",
    known: [
      "ch",
      "channel",
      "channel number",
      "ch no",
      "no",
      "nr",
      "number",
      "input",
      "input number",
      "line",
    ],
  },
  name: {
    title: "Name",
    known: ["name", "source", "channel name", "input name", "label", "instrument", "title", "description"],
  },
  kind: { title: "Kind", known: ["kind", "type", "group", "category"] },
  piece: { title: "Kit piece", known: ["kit piece", "drum", "stands at", "piece", "position"] },
  stereo: { title: "Stereo", known: ["stereo", "mono stereo", "width", "channels", "format"] },
  pan: {
    title: "Channel pan",
    known: ["channel pan", "pan", "house pan", "panorama", "pan position", "balance"],
  },
  muted: { title: "Mute", known: ["mute", "muted"] },
  polarity: { title: "Polarity", known: ["polarity", "inverted", "phase", "invert"] },
  level: {
    title: "Gated RMS dBFS",
    known: ["gated rms dbfs", "gated rms", "level", "rms", "level dbfs", "rms dbfs", "average"],
  },
  peak: { title: "Peak dBFS", known: ["peak dbfs", "peak", "max", "peak level"] },
  keepSides: { title: "Keep L/R", known: ["keep l r", "keep sides", "keeps sides"] },
  slot: {
    title: "Monitor input",
    known: [
      "monitor input",
      "monitor inputs",
      "slot",
      "slots",
      "monitor slot",
      "personal mixer",
      "mixer input",
    ],
  },
  tap: { title: "Tap point", known: ["tap point", "tap", "taken"] },
  on: { title: "On", known: ["on", "switch", "active", "enabled"] },
  trim: { title: "Trim dB", known: ["trim db", "trim", "gain trim"] },
};

/** Every field, in order. */
export const FIELD_NAMES = keysOf(FIELDS);

/** Headers that say a name in one list and a number in another. */
const PERHAPS_NAME = ["channel", "input", "ch", "line", "mic", "microphone"];
/** The same in the order in which they are taken for one; before a microphone’s a column without a header. */
const NAME_HEADERS = ["channel", "input", "ch", "line", "", "mic", "microphone"];

/** Further headers of input lists, which no field is read from: kept with the channels as they are. */
const MORE = [
  "mic",
  "microphone",
  "mic di",
  "stand",
  "48v",
  "p48",
  "phantom",
  "notes",
  "note",
  "comments",
].concat(["comment", "remarks", "snake", "sub snake", "stage box", "stagebox", "di", "gain", "location"]);

/** The range of a pan column as its header says it: "L100 to R100"; in lists of before "of 100". */
const PAN_RANGE = /\bL(\d+) to R\1\b|\bof (\d+)\b/i;

/** The header of a pan column with so many steps to each side: "Channel pan L100 to R100". */
export const panHeader = (steps: number): string => `${FIELDS.pan.title} L${steps} to R${steps}`;

/** A header as it is compared: small letters and single blanks, without the range of a pan and marks; "#" is a number. */
const bare = (header: string): string =>
  header
    .toLowerCase()
    .replaceAll("#", " no ")
    .replace(PAN_RANGE, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();

const isNumber = (cell: string): boolean =>
  /^\s*[-+\u2212]?\d+([.,]\d+)?\s*$/.test(cell) || channelCell(cell) !== null;

/** Whether a column has words in most of its cells that are not blank. */
const hasWords = (rows: readonly (readonly string[])[], column: number): boolean => {
  const cells = rows.map((r) => r[column] ?? "").filter((cell) => cell.trim() !== "");
  return cells.length > 0 && cells.filter(isNumber).length * 2 < cells.length;
};

const SURE: ReadonlySet<string> = new Set([...FIELD_NAMES.flatMap((f) => FIELDS[f].known), ...PERHAPS_NAME]);
const KNOWN: ReadonlySet<string> = new Set([...SURE, ...MORE]);

/** How many cells of a row are headers as lists have them. */
export const knownHeaders = (row: readonly string[]): number =>
  row.filter((cell) => KNOWN.has(bare(cell))).length;

/** Whether the first row names the columns: one header that says what is read, or two of any. */
const hasHeader = ([first = []]: readonly (readonly string[])[]): boolean =>
  first.some((cell) => SURE.has(bare(cell))) || knownHeaders(first) > 1;

/** So many rows may stand above the headers. A design choice. */
const ROWS_ABOVE = 10;
const filled = (row: readonly string[]): number => row.filter((cell) => cell.trim() !== "").length;

/**
 * Index of the row that names the columns: the first, or one below titles, rows not half as full as it; −1 where there is
 * none.
 */
export const headerRow = (rows: readonly (readonly string[])[]): number => {
  if (hasHeader(rows)) return 0;
  const at = rows.slice(0, ROWS_ABOVE + 1).findIndex((row) => knownHeaders(row) > 1);
  const half = filled(rows[at] ?? []) / 2;
  return rows.slice(0, Math.max(at, 0)).every((row) => filled(row) <= half) ? at : -1;
};

const namedColumn = (
  headers: readonly string[],
  known: readonly string[],
  taken: ReadonlySet<number>,
): number => {
  for (const word of known) {
    const at = headers.findIndex((h, i) => h === word && !taken.has(i));
    if (at >= 0) return at;
  }
  return -1;
};

/** Column of the names where no header says it: one that may be called so, else the first with words in it. */
const wordColumn = (
  headers: readonly string[],
  data: readonly (readonly string[])[],
  taken: ReadonlySet<number>,
): number => {
  const open = headers.map((_, i) => i).filter((i) => !taken.has(i) && hasWords(data, i));
  const named = NAME_HEADERS.flatMap((word) => open.filter((i) => headers[i] === word));
  return named[0] ?? open.find((i) => !MORE.includes(headers[i] as string)) ?? -1;
};

/** Column of the channel's numbers where no header says it: the first, if it has none and holds nothing else. */
const numberColumn = (
  headers: readonly string[],
  data: readonly (readonly string[])[],
  name: number,
): number | null =>
  name > 0 && headers[0] === "" && data.every((row) => channelCell(row[0] ?? "") !== null) ? 0 : null;

/**
 * Which column is which, as far as the headers tell; the name is otherwise the first column with words in it.
 * @param header whether the first row names the columns
 */
export const guessMapping = (rows: readonly (readonly string[])[], header: boolean): Mapping => {
  const data = header ? rows.slice(1) : rows;
  const width = Math.max(0, ...rows.map((r) => r.length));
  const headers = Array.from({ length: width }, (_, i) => (header ? bare(rows[0]?.[i] ?? "") : ""));
  const taken = new Set<number>();
  const words = new Set(headers.map((_, i) => i).filter((i) => hasWords(data, i)));
  const columns = FIELD_NAMES.map((field): [ListField, number | null] => {
    const at = namedColumn(headers, FIELDS[field].known, field === "number" ? words : taken);
    if (at >= 0) taken.add(at);
    return [field, at < 0 ? null : at];
  });
  const mapping = Object.fromEntries(columns) as Mapping;
  const name = mapping.name ?? wordColumn(headers, data, taken);
  if (name < 0) return mapping;
  return { ...mapping, name, number: mapping.number ?? numberColumn(headers, data, name) };
};

/** Steps of a pan column each side, where its header says its range; null where it does not. */
export const panStepsOf = (header: string): number | null => {
  const [, range, of] = PAN_RANGE.exec(header) ?? [];
  const steps = Number(range ?? of ?? 0);
  return steps > 0 ? steps : null;
};

/** Columns that no field is read from, by index from 0. */
export const furtherColumns = (width: number, mapping: Mapping): number[] => {
  const read = new Set(Object.values(mapping));
  return Array.from({ length: width }, (_, i) => i).filter((i) => !read.has(i));
};

/** A column as spreadsheets call it: 1 is A, 27 is AA. */
export const columnLetters = (column: number): string => {
  const last = (column - 1) % 26;
  const before = (column - 1 - last) / 26;
  return (before > 0 ? columnLetters(before) : "") + String.fromCharCode(65 + last);
};
