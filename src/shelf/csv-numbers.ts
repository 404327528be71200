import type { InputName } from "../core/inputs/names";
import { channelCell } from "../core/inputs/numbers";
import { asTyped } from "../core/lib/number";
import { RANGES } from "../document/limits";
import { formatCount } from "../text/words";
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
  if (numbers.length > MOST_NUMBERS)
    reader.fault(
      cell ? "number" : "name",
      `Ch: “${asTyped(reader.text(cell ? "number" : "name"))}” has ${numbers.length} channel numbers. Allowed: one, or two of a stereo channel.`,
    );
  return numbers;
};

/** Whether a row has nothing but what stands in the column of channel numbers: a spare channel, or the title of a section. */
export const isWithoutChannel = ({ cells }: CsvRow, { number }: Pick<Mapping, "number">): boolean =>
  number !== null && cells.every((cell, at) => at === number || cell.trim() === "");

/** What of a column of channel numbers became of nothing, in sentences. */
export const notesOfNumbers = (
  rows: readonly CsvRow[],
  { number }: Pick<Mapping, "number">,
  some: (items: readonly string[]) => string,
): string[] => {
  if (number === null) return [];
  const cellOf = ({ cells }: CsvRow): string => unguard(cells[number] ?? "").trim();
  const out = rows.filter((row) => isWithoutChannel(row, { number }));
  const unread = rows.filter(
    (row) => !out.includes(row) && cellOf(row) !== "" && channelCell(cellOf(row)) === null,
  );
  const cells = (of: readonly CsvRow[]): string => some(of.map((row) => `“${asTyped(cellOf(row))}”`));
  return [
    ...(out.length === 0
      ? []
      : [
          `Left out: ${formatCount(out.length, "row")} with nothing but ${cells(out)}. Type a name into each that is a channel.`,
        ]),
    ...(unread.length === 0
      ? []
      : [
          `No channel number: ${cells(unread)}. Allowed: ${RANGES.number.min} to ${RANGES.number.max}, or two such as “13-14”. The channels come without one.`,
        ]),
  ];
};
