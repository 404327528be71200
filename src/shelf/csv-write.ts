import { busContents } from "../core/inputs/bus-contents";
import type { ListRow } from "../core/inputs/list";
import { extraHeads, extraUnder } from "../core/inputs/list-extra";
import type { ListFeed } from "../core/inputs/list-feeds";
import { busesNamed, type ListBus } from "../core/inputs/list-sends";
import type { SheetRow } from "../core/inputs/sheet";
import type { Pan } from "../core/model/units";
import { formatPan, parsePan } from "../core/pan/notation";
import { CONTENT_COLUMNS } from "../text/bus-sheet";
import { KIND_WORDS } from "../text/list";
import { type Column, SHEET_COLUMNS, type SheetNames } from "../text/sheet";
import { TAP_NAMES } from "../text/taps";
import type { Delimiter } from "./csv";
import { guard, guardText } from "./csv-cells";
import { FIELD_NAMES, FIELDS, type ListField, panHeader } from "./csv-columns";
import { AND } from "./csv-row";
import { headOfBus, sendText } from "./csv-sends";

/** How a spreadsheet of some language reads CSV: a decimal comma goes with semicolons between the cells. */
export interface CsvStyle {
  readonly delimiter: Delimiter;
  readonly decimal: "." | ",";
}

/** The style of a language, such as "de-AT". */
export const csvStyle = (language: string): CsvStyle => {
  const comma = new Intl.NumberFormat(language).format(0.5).includes(",");
  return comma ? { delimiter: ";", decimal: "," } : { delimiter: ",", decimal: "." };
};

const POINT: CsvStyle = { delimiter: ",", decimal: "." };

/**
 * Every digit, so that reading gives the same number again; a plain hyphen, so that it stays a number; no exponent,
 * which small ones have and a pan can't.
 */
const digits = (value: number, style: CsvStyle): string => {
  const [figures = "", exponent] = String(value).split("e-");
  if (exponent === undefined) return figures.replace(".", style.decimal);
  const sign = value < 0 ? "-" : "";
  return `${sign}0${style.decimal}${"0".repeat(Number(exponent) - 1)}${figures.replace(/[.-]/g, "")}`;
};

const yes = (value: boolean): string => (value ? "yes" : "no");

/** Steps each side in which every pan comes back as it was: those of percent, else parts of 1. */
const stepsFor = (pans: readonly Pan[]): number => {
  const hundred = { panStyle: "steps", panSteps: 100 } as const;
  const same = (pan: Pan): boolean => {
    const typed = parsePan(formatPan(pan, hundred), hundred);
    return typed.state === "value" && Object.is(typed.value, pan);
  };
  return pans.every(same) ? hundred.panSteps : 1;
};

const panText = (pan: Pan, steps: number, style: CsvStyle): string => {
  if (pan === 0) return "C";
  const share = steps === 1 ? Math.abs(pan) : Math.round(Math.abs(pan) * steps);
  return `${pan < 0 ? "L" : "R"}${digits(share, style)}`;
};

const LETTER = { left: "L", right: "R", both: "M" } as const;

const inputText = (row: ListRow): string =>
  row.feeds.map((f) => `${f.input}${row.lines === 2 ? LETTER[f.side] : ""}`).join(" ");

/** What is said of every monitor input: once, where it is the same for all. */
const eachText = (feeds: readonly ListFeed[], text: (feed: ListFeed) => string): string => {
  const texts = feeds.map(text);
  return texts.every((t) => t === texts[0]) ? (texts[0] ?? "") : texts.join(AND);
};

const CELLS: {
  readonly [field in ListField]: (row: ListRow, style: CsvStyle, steps: number) => string;
} = {
  number: (r) => r.numbers.join(AND),
  name: (r) => r.name,
  kind: (r) => KIND_WORDS[r.kind],
  piece: (r) => r.piece ?? "",
  stereo: (r) => (r.lines === 2 ? "stereo" : "mono"),
  pan: (r, style, steps) => panText(r.pan, steps, style),
  muted: (r) => yes(r.muted),
  polarity: (r) => (r.inverted ? "inverted" : "normal"),
  level: (r, style) => (r.gatedRms === null ? "" : digits(r.gatedRms, style)),
  peak: (r, style) => (r.peak === null ? "" : digits(r.peak, style)),
  keepSides: (r) => yes(r.keepSides),
  slot: inputText,
  tap: (r) => eachText(r.feeds, (f) => TAP_NAMES[f.tap]),
  on: (r) => eachText(r.feeds, (f) => yes(f.on)),
  trim: (r, style) => eachText(r.feeds, (f) => digits(f.trim, style)),
};

/** A cell in quotation marks where a delimiter, line end, mark or blank at an end asks for them. */
const quoted = (cell: string): string =>
  /[",;\t|\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;

/** CSV as spreadsheets open it by a double tap: a mark for UTF-8 at the beginning, CR LF, no cell that could be a formula. */
const csvText = (rows: readonly (readonly string[])[], style: CsvStyle): string => {
  // A reader that cuts at something else takes a whole line for one cell, which begins as the first.
  const safe = (cell: string, at: number): string => quoted(at === 0 ? guardText(cell) : guard(cell));
  const lines = rows.map((row) => row.map(safe).join(style.delimiter));
  return `\uFEFF${lines.join("\r\n")}\r\n`;
};

/**
 * An input list as CSV; `openCsv` and `readList` give the very same list again.
 * @param buses in the order of their columns; those that the rows name where it is left out
 */
export const listToCsv = (
  rows: readonly ListRow[],
  style: CsvStyle = POINT,
  buses: readonly ListBus[] = busesNamed(rows.map((row) => row.sends)),
): string => {
  const steps = stepsFor(rows.flatMap((row) => [row.pan, ...row.sends.map((send) => send.pan ?? 0)]));
  const heads = extraHeads(rows);
  const sendIn = (row: ListRow, bus: ListBus): string => {
    const send = row.sends.find((s) => headOfBus(s.bus) === headOfBus(bus));
    return send
      ? sendText(
          send,
          (level) => digits(level, style),
          (pan) => panText(pan, steps, style),
        )
      : "";
  };
  const headers = FIELD_NAMES.map((f) => (f === "pan" ? panHeader(steps) : FIELDS[f].title));
  const lines = rows.map((row) => [
    ...FIELD_NAMES.map((f) => CELLS[f](row, style, steps)),
    ...buses.map((bus) => sendIn(row, bus)),
    ...heads.map((head) => extraUnder(row.extra, head)),
  ]);
  return csvText([[...headers, ...buses.map(headOfBus), ...heads], ...lines], style);
};

/** Some columns as CSV, numbers in every digit. */
const columnsToCsv = <Line>(
  columns: readonly Column<Line>[],
  lines: readonly Line[],
  setup: SheetNames,
  style: CsvStyle,
): string => {
  const cells = (line: Line): string[] =>
    columns.map(({ cell, value }) => {
      const number = value?.(line) ?? null;
      return number === null ? cell(line, setup) : digits(number, style);
    });
  return csvText([columns.map(({ head }) => head), ...lines.map(cells)], style);
};

/** The patch sheet as CSV. */
export const sheetToCsv = (setup: SheetNames, rows: readonly SheetRow[], style: CsvStyle = POINT): string =>
  columnsToCsv(Object.values(SHEET_COLUMNS), rows, setup, style);

/** What is in each bus as CSV, one line a send. */
export const contentsToCsv = (setup: SheetNames, style: CsvStyle = POINT): string => {
  const sends = busContents(setup).flatMap(({ contents }) => contents);
  return columnsToCsv(CONTENT_COLUMNS, sends, setup, style);
};
