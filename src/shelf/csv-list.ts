import type { ListFeed, ListRow } from "../core/inputs/list";
import { TAP_ADVICE } from "../core/inputs/taps";
import { asTyped, type NumberRule } from "../core/lib/number";
import type { Setup } from "../core/model/setup";
import { formatPan, parsePan } from "../core/pan/notation";
import { LIMITS, RANGES } from "../document/limits";
import type { CsvRow, CsvTable } from "./csv";
import {
  type Cell,
  kindOfName,
  readCellNumber,
  readInputs,
  readKind,
  readTap,
  readYes,
  unguard,
} from "./csv-cells";
import { FIELDS, type Field, type Mapping, panStepsOf } from "./csv-columns";

/** What is wrong with one cell. */
export interface CellFault {
  /** Row of the file, from 1. */
  readonly row: number;
  /** Column of the file, from 1; null where none is chosen. */
  readonly column: number | null;
  /** What it is read as. */
  readonly field: Field;
  /** Which value, and what is allowed. */
  readonly says: string;
}

/** An input list, whole; or every fault of it, and nothing. */
export type ListRead =
  | { readonly ok: true; readonly rows: readonly ListRow[]; readonly notes: readonly string[] }
  | { readonly ok: false; readonly faults: readonly CellFault[] };

/** Stands between the values of several inputs in one cell. */
export const AND = " & ";

const LEVEL: NumberRule = { name: "Level", ...RANGES.level, unit: "dBFS" };
const PEAK: NumberRule = { name: "Peak", ...RANGES.level, unit: "dBFS" };
const TRIM: NumberRule = { name: "Trim", ...RANGES.trim, unit: "dB" };

/** Names are single lines. */
const cleanName = (cell: string): string => cell.replace(/[\s\p{Cc}]+/gu, " ").trim();

/** Reads the cells of one row. */
interface RowReader {
  /** The text of a field; null where no column is chosen for it. */
  readonly text: (field: Field) => string | null;
  readonly fault: (field: Field, says: string) => void;
  /** What a cell means; what it means without one, where it is blank or wrong. */
  readonly read: <T>(field: Field, otherwise: T, reader: (text: string) => Cell<T>) => T;
  /** One value for each of so many inputs: a cell with one value says it of all. */
  readonly each: <T>(field: Field, count: number, otherwise: T, reader: (text: string) => Cell<T>) => T[];
}

/** @param faults takes what is wrong */
const rowReader = (row: CsvRow, mapping: Mapping, faults: CellFault[]): RowReader => {
  const text = (field: Field): string | null => {
    const column = mapping[field];
    return column === null ? null : unguard(row.cells[column] ?? "").trim();
  };
  const fault = (field: Field, says: string): void => {
    const column = mapping[field];
    faults.push({ row: row.number, column: column === null ? null : column + 1, field, says });
  };
  const meaningOf = <T>(
    field: Field,
    cell: string | null,
    otherwise: T,
    reader: (text: string) => Cell<T>,
  ): T => {
    if (cell === null || cell === "") return otherwise;
    const read = reader(cell);
    if ("value" in read) return read.value;
    fault(field, read.wrong);
    return otherwise;
  };
  return {
    text,
    fault,
    read: (field, otherwise, reader) => meaningOf(field, text(field), otherwise, reader),
    each: (field, count, otherwise, reader) => {
      const texts = (text(field) ?? "").split(AND.trim()).map((t) => t.trim());
      if (texts.length > 1 && texts.length !== count) {
        const says = `${texts.length} values for ${count} inputs. Allowed: one, or one for each.`;
        fault(field, `${FIELDS[field].title}: ${says}`);
        return Array(count).fill(otherwise);
      }
      const values = texts.map((t) => meaningOf(field, t, otherwise, reader));
      return Array.from({ length: count }, (_, i) => values[texts.length > 1 ? i : 0] ?? otherwise);
    },
  };
};

const panReader = (setup: Pick<Setup, "desk">, header: string) => {
  const steps = panStepsOf(header);
  const notation = steps === null ? setup.desk : ({ panStyle: "steps", panSteps: steps } as const);
  return (text: string): Cell<number> => {
    const typed = parsePan(text, notation);
    if (typed.state === "value") return { value: typed.value };
    return {
      wrong:
        typed.state === "wrong"
          ? typed.why
          : `Pan: “${asTyped(text)}” is only the beginning of a pan. Allowed: ${formatPan(-1, notation)} to ${formatPan(1, notation)}.`,
    };
  };
};

const rowOf = (reader: RowReader, readPan: (text: string) => Cell<number>, pieces: boolean): ListRow => {
  const name = cleanName(reader.text("name") ?? "");
  const letters = [...name].length;
  if (name === "") reader.fault("name", "Name: nothing is written here. Allowed: a name.");
  if (letters > LIMITS.name)
    reader.fault("name", `Name: “${asTyped(name)}” has ${letters} characters. Allowed: ${LIMITS.name}.`);
  const kind = reader.read("kind", kindOfName(name), readKind);
  const stereo = reader.read("stereo", false, (t) =>
    readYes(t, "Stereo", [
      ["stereo", "2", "st"],
      ["mono", "1"],
    ]),
  );
  const channels = stereo ? 2 : 1;
  const inputs = reader.read("slot", [], (t) => readInputs(t, channels));
  const taps = reader.each("tap", inputs.length, TAP_ADVICE[kind].better, readTap);
  const on = reader.each("on", inputs.length, true, (t) => readYes(t, "On"));
  const trims = reader.each("trim", inputs.length, 0, (t) => readCellNumber(t, TRIM));
  const piece = reader.text("piece");
  return {
    name,
    kind,
    piece: pieces ? cleanName(piece ?? "") || null : kind === "drum" ? name : null,
    lines: channels,
    pan: reader.read("pan", 0, readPan),
    muted: reader.read("muted", false, (t) => readYes(t, "Muted", [["muted"], []])),
    inverted: reader.read("polarity", false, (t) =>
      readYes(t, "Polarity", [["inverted", "reversed"], ["normal"]]),
    ),
    gatedRms: reader.read<number | null>("level", null, (t) => readCellNumber(t, LEVEL)),
    peak: reader.read<number | null>("peak", null, (t) => readCellNumber(t, PEAK)),
    keepSides: reader.read("keepSides", stereo, (t) => readYes(t, "Keep sides")),
    feeds: inputs
      .map(
        ({ input, side }, i): ListFeed => ({
          input,
          side,
          tap: taps[i] ?? TAP_ADVICE[kind].better,
          on: on[i] ?? true,
          trim: trims[i] ?? 0,
        }),
      )
      .sort((a, b) => a.input - b.input),
  };
};

/** Inputs that more than one line names. */
const clashes = (
  lines: readonly { readonly row: number; readonly list: ListRow }[],
  column: number | null,
): CellFault[] => {
  const first = new Map<number, number>();
  return lines.flatMap(({ row, list }) =>
    list.feeds.flatMap(({ input }): CellFault[] => {
      const other = first.get(input);
      if (other === undefined) {
        first.set(input, row);
        return [];
      }
      const says = `Input: ${input} is taken by row ${other}. Allowed: each input once.`;
      return [{ row, column: column === null ? null : column + 1, field: "slot", says }];
    }),
  );
};

/**
 * Makes an input list of a table, by the mapping that the user has seen. All of it or nothing: one wrong cell, and only the
 * faults come back, each with its row and column. A column that is not chosen leaves what is usual: one channel, centre, not muted.
 * @param header the first row names the columns
 */
export const readList = (
  table: Pick<CsvTable, "rows">,
  mapping: Mapping,
  header: boolean,
  setup: Pick<Setup, "desk" | "kit">,
): ListRead => {
  const rows = header ? table.rows.slice(1) : table.rows;
  if (mapping.name === null || rows.length === 0) {
    const says =
      rows.length === 0
        ? "There is no row under the headers. Allowed: a row for each channel."
        : "Name: no column is chosen for it. Choose the one with the names.";
    return { ok: false, faults: [{ row: table.rows[0]?.number ?? 1, column: null, field: "name", says }] };
  }
  const panHeader = header && mapping.pan !== null ? (table.rows[0]?.cells[mapping.pan] ?? "") : "";
  const readPan = panReader(setup, panHeader);
  const faults: CellFault[] = [];
  const lines = rows.map((row) => {
    const list = rowOf(rowReader(row, mapping, faults), readPan, mapping.piece !== null);
    return { row: row.number, list };
  });
  faults.push(...clashes(lines, mapping.slot));
  if (faults.length > 0) {
    faults.sort((a, b) => a.row - b.row || (a.column ?? 0) - (b.column ?? 0));
    return { ok: false, faults };
  }
  const known = new Set(setup.kit.pieces.map((p) => p.name.trim().toLowerCase()));
  const notes = lines.flatMap(({ row, list: { piece } }) =>
    mapping.piece === null || piece === null || known.has(piece.toLowerCase())
      ? []
      : [`Row ${row}: “${asTyped(piece)}” is no piece of the kit, so the channel stands at none.`],
  );
  return { ok: true, rows: lines.map((l) => l.list), notes };
};
