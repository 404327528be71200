import type { ListBus, NamedSend } from "../core/inputs/list-sends";
import { uniqueName } from "../core/model/ids";
import type { ExtraColumn } from "../core/model/setup";
import type { Pan } from "../core/model/units";
import { LIMITS } from "../document/limits";
import type { CsvNote } from "../text/csv";
import type { CsvRow } from "./csv";
import { type Cell, unguard } from "./csv-cells";
import { columnLetters, furtherColumns, type Mapping } from "./csv-columns";
import type { RowReader } from "./csv-row";
import { busOfHead, readSend } from "./csv-sends";

/** A column of a list that no field is read from, by index from 0. */
interface Column<T> {
  readonly column: number;
  readonly head: T;
}

/** What becomes of the columns that no field is read from. */
export interface Further {
  /** Each holds the sends into a bus. */
  readonly buses: readonly Column<ListBus>[];
  /** Kept with the channels as they are. */
  readonly extra: readonly Column<string>[];
  /** More than a channel keeps. */
  readonly over: readonly string[];
  /** Columns that have something in them and no head to keep it under. */
  readonly headless: readonly number[];
}

const hasCells = (rows: readonly CsvRow[], column: number): boolean =>
  rows.some(({ cells }) => (cells[column] ?? "").trim() !== "");

/** Sorts the columns that no field is read from: sends into buses, what is kept as it is, what cannot be. */
export const furtherOf = (rows: readonly CsvRow[], headers: readonly string[], mapping: Mapping): Further => {
  const width = Math.max(0, ...rows.map((row) => row.cells.length));
  const buses: Column<ListBus>[] = [];
  const named: (Column<string> & { readonly name: string })[] = [];
  const headless: number[] = [];
  for (const column of furtherColumns(width, mapping)) {
    const text = unguard(headers[column] ?? "")
      .replace(/\s+/g, " ")
      .trim();
    const bus = busOfHead(text);
    if (bus) buses.push({ column, head: bus });
    else if (!hasCells(rows, column)) continue;
    else if (text === "") headless.push(column);
    else {
      const head = uniqueName([...text].slice(0, LIMITS.name).join(""), named);
      named.push({ column, head, name: head });
    }
  }
  const extra = named.map(({ column, head }) => ({ column, head }));
  return {
    buses,
    extra: extra.slice(0, LIMITS.extra),
    over: extra.slice(LIMITS.extra).map(({ head }) => head),
    headless: headers.length > 0 ? headless : [],
  };
};

/** What a row says of the channel's sends. */
export const readSends = (
  reader: RowReader,
  { buses }: Further,
  readPan: (text: string) => Cell<Pan>,
): NamedSend[] =>
  buses.flatMap(({ column, head }): NamedSend[] => {
    const cell = reader.cell(column);
    if (cell === "") return [];
    const read = readSend(cell, readPan);
    if (read.ok) return [{ bus: head, ...read.value }];
    reader.faultAt(column, "send", read.why);
    return [];
  });

/** What a row holds in the columns that are kept as they are. */
export const readExtra = (reader: RowReader, { extra }: Further): ExtraColumn[] =>
  extra.flatMap(({ column, head }): ExtraColumn[] => {
    const value = reader.cell(column);
    const letters = [...value].length;
    if (letters > LIMITS.cell)
      reader.faultAt(column, "extra", { code: "long cell", head, cell: value, letters, most: LIMITS.cell });
    return value === "" ? [] : [{ head, value }];
  });

/** What is to be known of these columns. */
export const notesOfFurther = ({ extra, over, headless }: Further): readonly CsvNote[] => [
  ...(extra.length === 0 ? [] : [{ code: "kept", heads: extra.map(({ head }) => head) } as const]),
  ...(over.length === 0 ? [] : [{ code: "not kept", heads: over, most: LIMITS.extra } as const]),
  ...headless.map((column) => ({ code: "no header", letters: columnLetters(column + 1) }) as const),
];
