/** What a column of an input list may be. */
export type Field =
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
export type Mapping = { readonly [field in Field]: number | null };

/** How a field is called, and the headers by which it is known. */
export interface FieldWords {
  /** Header as it is written. */
  readonly title: string;
  readonly known: readonly string[];
}

/** All fields in the order in which they are written. Headers as they are common in the trade, no source. */
export const FIELDS: { readonly [field in Field]: FieldWords } = {
  name: {
    title: "Name",
    known: ["name", "source", "channel name", "input name", "label", "instrument", "title", "description"],
  },
  kind: { title: "Kind", known: ["kind", "type", "group", "category"] },
  piece: { title: "Stands at", known: ["stands at", "piece", "position", "drum"] },
  stereo: { title: "Stereo", known: ["stereo", "mono stereo", "width", "channels", "format"] },
  pan: { title: "Pan", known: ["pan", "channel pan", "house pan", "panorama", "pan position", "balance"] },
  muted: { title: "Muted", known: ["muted", "mute"] },
  polarity: { title: "Polarity", known: ["polarity", "inverted", "phase", "invert"] },
  level: { title: "Level dBFS", known: ["level", "rms", "level dbfs", "rms dbfs", "average"] },
  peak: { title: "Peak dBFS", known: ["peak", "peak dbfs", "max", "peak level"] },
  keepSides: { title: "Keep sides", known: ["keep sides", "keeps sides"] },
  slot: {
    title: "Slot",
    known: ["slot", "slots", "monitor input", "monitor input", "personal mixer", "mixer input"],
  },
  tap: { title: "Tap point", known: ["tap", "tap point", "taken"] },
  on: { title: "On", known: ["on", "switch", "active", "enabled"] },
  trim: { title: "Trim dB", known: ["trim", "trim db", "gain trim"] },
};

/** Every field, in order. */
export const FIELD_NAMES = Object.keys(FIELDS) as Field[];

/** Headers that say a name in one list and a number in another. */
const PERHAPS_NAME = ["channel", "input", "ch", "line", "mic", "microphone"];

/** A header as it is compared: small letters and single blanks, without "of 100" and marks. */
const bare = (header: string): string =>
  header
    .toLowerCase()
    .replace(/\bof \d+\b/g, "")
    .replace(/[^a-z0-9]+/g, " ")
    .trim();

const isNumber = (cell: string): boolean => /^\s*[-+\u2212]?\d+([.,]\d+)?\s*$/.test(cell);

/** Whether a column has words in most of its cells that are not blank. */
const hasWords = (rows: readonly (readonly string[])[], column: number): boolean => {
  const cells = rows.map((r) => r[column] ?? "").filter((cell) => cell.trim() !== "");
  return cells.length > 0 && cells.filter(isNumber).length * 2 < cells.length;
};

const KNOWN: ReadonlySet<string> = new Set([...FIELD_NAMES.flatMap((f) => FIELDS[f].known), ...PERHAPS_NAME]);

/** How many cells of a row are headers as lists have them. */
export const knownHeaders = (row: readonly string[]): number =>
  row.filter((cell) => KNOWN.has(bare(cell))).length;

/** Whether the first row names the columns. */
export const hasHeader = (rows: readonly (readonly string[])[]): boolean => knownHeaders(rows[0] ?? []) > 0;

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

const wordColumn = (
  headers: readonly string[],
  data: readonly (readonly string[])[],
  taken: ReadonlySet<number>,
): number => {
  const open = headers.map((_, i) => i).filter((i) => !taken.has(i) && hasWords(data, i));
  return open.find((i) => PERHAPS_NAME.includes(headers[i] as string)) ?? open[0] ?? -1;
};

/**
 * Which column is which, as far as the headers tell; the name is otherwise the first column with words in it.
 * @param header whether the first row names the columns
 */
export const guessMapping = (rows: readonly (readonly string[])[], header: boolean): Mapping => {
  const data = header ? rows.slice(1) : rows;
  const width = Math.max(0, ...rows.map((r) => r.length));
  const headers = Array.from({ length: width }, (_, i) => (header ? bare(rows[0]?.[i] ?? "") : ""));
  const taken = new Set<number>();
  const columns = FIELD_NAMES.map((field): [Field, number | null] => {
    const at = namedColumn(headers, FIELDS[field].known, taken);
    if (at >= 0) taken.add(at);
    return [field, at < 0 ? null : at];
  });
  const mapping = Object.fromEntries(columns) as Mapping;
  if (mapping.name !== null) return mapping;
  const at = wordColumn(headers, data, taken);
  return { ...mapping, name: at < 0 ? null : at };
};

/** Steps of a pan column each side, where its header says "of 100"; null where it does not. */
export const panStepsOf = (header: string): number | null => {
  const steps = Number(/\bof (\d+)\b/i.exec(header)?.[1] ?? 0);
  return steps > 0 ? steps : null;
};
