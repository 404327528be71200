import type { CellProblem } from "../text/csv";
import type { CsvRow } from "./csv";
import { type Cell, unguard } from "./csv-cells";
import { FIELDS, type ListField, type Mapping } from "./csv-columns";

/** What is wrong with one cell. */
export interface CellFault {
  /** Row of the file, from 1. */
  readonly row: number;
  /** Column of the file, from 1; null where none is chosen. */
  readonly column: number | null;
  /** What it is read as. */
  readonly field: ListField | "send" | "extra";
  readonly problem: CellProblem;
}

/** Stands between the values of several monitor inputs in one cell. */
export const AND = " & ";

/** Reads the cells of one row: undefined is what a row does not say, by a blank cell or a column that is not there. */
export interface RowReader {
  readonly row: number;
  /** The text of a field, blank where there is none. */
  readonly text: (field: ListField) => string;
  /** The text of a column that is no field's, by index from 0. */
  readonly cell: (column: number) => string;
  readonly faultAt: (column: number, field: CellFault["field"], problem: CellProblem) => void;
  readonly fault: (field: ListField, problem: CellProblem) => void;
  /** What a cell means; undefined also where it is wrong. */
  readonly read: <T>(field: ListField, reader: (text: string) => Cell<T>) => T | undefined;
  /** One value for each of so many monitor inputs: a cell with one value says it of all. */
  readonly each: <T>(field: ListField, count: number, reader: (text: string) => Cell<T>) => (T | undefined)[];
}

/** @param faults takes what is wrong */
export const rowReader = (row: CsvRow, mapping: Mapping, faults: CellFault[]): RowReader => {
  const cell = (column: number): string => unguard(row.cells[column] ?? "").trim();
  const text = (field: ListField): string => {
    const column = mapping[field];
    return column === null ? "" : cell(column);
  };
  const faultAt = (column: number | null, field: CellFault["field"], problem: CellProblem): void => {
    faults.push({ row: row.number, column: column === null ? null : column + 1, field, problem });
  };
  const fault = (field: ListField, problem: CellProblem): void => faultAt(mapping[field], field, problem);
  const meaningOf = <T>(field: ListField, cell: string, reader: (text: string) => Cell<T>): T | undefined => {
    if (cell === "") return undefined;
    const read = reader(cell);
    if (read.ok) return read.value;
    fault(field, read.why);
    return undefined;
  };
  return {
    row: row.number,
    text,
    cell,
    faultAt,
    fault,
    read: (field, reader) => meaningOf(field, text(field), reader),
    each: (field, count, reader) => {
      const texts = text(field)
        .split(AND.trim())
        .map((t) => t.trim());
      if (texts.length > 1 && texts.length !== count) {
        const { title } = FIELDS[field];
        fault(field, { code: "many values", title, values: texts.length, inputs: count });
        return Array(count).fill(undefined);
      }
      const values = texts.map((t) => meaningOf(field, t, reader));
      return Array.from({ length: count }, (_, i) => values[texts.length > 1 ? i : 0]);
    },
  };
};
