import type { InputName } from "../core/inputs/names";
import { channelCell } from "../core/inputs/numbers";
import { RANGES } from "../document/limits";
import type { CsvNote } from "../text/csv";
import type { CsvRow } from "./csv";
import { unguard } from "./csv-cells";
import type { Mapping } from "./csv-columns";
import type { RowReader } from "./csv-row";

/** A channel has one, or two of a stereo channel on two faders. */
const MOST_NUMBERS = 2;

/** The channel numbers that a row says, by their own column or in front of the name; more than a channel has are a fault. */
export const readNumbers = (reader: RowReader, input: Pick<InputName, "channels">): readonly number[] => {
  const cell = channelCell(reader.text("number"));
  const numbers = cell ?? input.channels;
  const field = cell ? "number" : "name";
  if (numbers.length > MOST_NUMBERS)
    reader.fault(field, { code: "many numbers", cell: reader.text(field), count: numbers.length });
  return numbers;
};

/** Whether a row has nothing but what stands in the column of channel numbers: a spare channel, or the title of a section. */
export const isWithoutChannel = ({ cells }: CsvRow, { number }: Pick<Mapping, "number">): boolean =>
  number !== null && cells.every((cell, at) => at === number || cell.trim() === "");

/** What of a column of channel numbers became of nothing. */
export const notesOfNumbers = (
  rows: readonly CsvRow[],
  { number }: Pick<Mapping, "number">,
): readonly CsvNote[] => {
  if (number === null) return [];
  const cellOf = ({ cells }: CsvRow): string => unguard(cells[number] ?? "").trim();
  const out = rows.filter((row) => isWithoutChannel(row, { number }));
  const unread = rows.filter(
    (row) => !out.includes(row) && cellOf(row) !== "" && channelCell(cellOf(row)) === null,
  );
  const { min, max } = RANGES.number;
  return [
    ...(out.length === 0 ? [] : [{ code: "left out", cells: out.map(cellOf) } as const]),
    ...(unread.length === 0
      ? []
      : [{ code: "no channel number", cells: unread.map(cellOf), min, max } as const]),
  ];
};
