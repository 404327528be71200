import { asTyped, formatEntry, type NumberRule } from "../core/lib/number";
import { formatPan } from "../core/pan/notation";
import type { PanNotation } from "../core/pan/notation-styles";
import { type CodeOf, textOf } from "./coded";
import { describeEntryFault, type EntryFault } from "./entry";
import { TAP_NAMES } from "./taps";
import { formatCount, formatList } from "./words";

interface Cell {
  readonly cell: string;
}

const inputRange = (most: number): string => `1 to ${most}`;

/** What is wrong with a cell: which value, what is allowed. */
const CELLS = {
  "not yes": (v: Cell & { title: string; allowed: readonly string[] }) =>
    `${v.title}: “${asTyped(v.cell)}” is neither yes nor no. Allowed: ${v.allowed.join(" or ")}, or nothing.`,
  "part of a number": ({ cell, rule }: Cell & { rule: NumberRule }) =>
    `${rule.name}: “${asTyped(cell)}” is only the beginning of a number. Allowed: ${formatEntry(rule.min)} to ${formatEntry(rule.max)} ${rule.unit}.`,
  "part of a pan": ({ cell, notation }: Cell & { notation: PanNotation }) =>
    `Pan: “${asTyped(cell)}” is only the beginning of a pan. Allowed: ${formatPan(-1, notation)} to ${formatPan(1, notation)}.`,
  /** As a field says it of what is typed into it. */
  typed: ({ fault }: { fault: EntryFault }) => describeEntryFault(fault),
  kind: ({ cell, allowed }: Cell & { allowed: readonly string[] }) =>
    `Kind: “${asTyped(cell)}” is not known. Allowed: ${allowed.join(", ")}.`,
  tap: ({ cell }: Cell) =>
    `Tap point: “${asTyped(cell)}” is not known. Allowed: ${Object.values(TAP_NAMES).join(", ")}.`,
  "no input": ({ cell, most }: Cell & { most: number }) =>
    `Monitor input: “${asTyped(cell)}” is not a number. Allowed: ${inputRange(most)}, for a stereo channel such as 5L 6R.`,
  "far input": ({ input, most }: { input: number; most: number }) =>
    `Monitor input: ${input} is outside ${inputRange(most)}.`,
  "side of mono": ({ cell, most }: Cell & { most: number }) =>
    `Monitor input: “${asTyped(cell)}” names a side, but the channel is mono. Allowed: ${inputRange(most)}.`,
  "input taken": ({ input, row }: { input: number; row: number }) =>
    `Monitor input: ${input} is taken by row ${row}. Allowed: each input once.`,
  "no names": ({ rows }: { rows: number }) =>
    `Name: blank in ${rows === 1 ? "the only row" : `all ${rows} rows`}. Allowed: a name for each channel.`,
  "long name": (v: Cell & { letters: number; most: number }) =>
    `Name: “${asTyped(v.cell)}” has ${v.letters} characters. Allowed: ${v.most}.`,
  "long cell": (v: Cell & { head: string; letters: number; most: number }) =>
    `${asTyped(v.head)}: “${asTyped(v.cell)}” has ${v.letters} characters. Allowed: ${v.most}.`,
  "many numbers": ({ cell, count }: Cell & { count: number }) =>
    `Ch: “${asTyped(cell)}” has ${count} channel numbers. Allowed: one, or two of a stereo channel.`,
  "many values": ({ title, values, inputs }: { title: string; values: number; inputs: number }) =>
    `${title}: ${values} values for ${formatCount(inputs, "monitor input")}. Allowed: one, or one for each.`,
  send: ({ cell }: Cell) =>
    `Send: “${asTyped(cell)}” cannot be read. Allowed: a tap point, a level, a pan, “off”, such as “post-fader −6 L30”; “x”; or “no”.`,
  "no rows": () => "There is no row under the headers. Allowed: a row for each channel.",
  "no name column": () => "Name: no column is chosen. Choose the one with the names.",
};

/** What is wrong with a cell, by code. */
export type CellProblem = CodeOf<typeof CELLS>;

/** It in a sentence. */
export const describeCellProblem = (problem: CellProblem): string => textOf(CELLS, problem);

/** So many cells tell one row from another. A design choice. */
const TELLING = 3;
/** So many of anything a sentence names. A design choice. */
const NAMED = 8;
const some = (items: readonly string[]): string =>
  formatList(items.length > NAMED + 1 ? [...items.slice(0, NAMED), `${items.length - NAMED} more`] : items);

const cellsText = (cells: readonly string[]): string => some(cells.map((cell) => `“${asTyped(cell)}”`));

/** What is to be known of a list that can be read. */
const NOTES = {
  "windows-1252": () => "The file is not in UTF-8: read as Windows-1252. Look at the accents and umlauts.",
  nul: () => "The file had NUL characters between the letters: left out.",
  "above the headers": ({ cells }: { cells: readonly string[] }) =>
    `Above the headers, so left out: ${formatList(cells.map((cell) => `“${asTyped(cell)}”`))}.`,
  "one column": () => "The file has one column only: it is read as the names.",
  "no such piece": ({ row, piece }: { row: number; piece: string }) =>
    `Row ${row}: the kit has no “${asTyped(piece)}”, so the channel has no kit piece.`,
  joined: ({ names }: { names: readonly string[] }) =>
    `L and R are joined to stereo channels: ${some(names.map(asTyped))}.`,
  "no column of inputs": () => "Tap point, On and Trim are read only with a column of monitor inputs.",
  kept: ({ heads }: { heads: readonly string[] }) =>
    `Kept with each channel and exported again: ${some(heads.map(asTyped))}.`,
  "not kept": ({ heads, most }: { heads: readonly string[]; most: number }) =>
    `Not kept: ${some(heads.map(asTyped))}. A channel keeps up to ${most} extra columns: remove some from the list first.`,
  "no header": ({ letters }: { letters: string }) =>
    `Column ${letters} has no header, so it is not kept. Give it one in the spreadsheet.`,
  "left out": ({ cells }: { cells: readonly string[] }) =>
    `Left out: ${formatCount(cells.length, "row")} with nothing but ${cellsText(cells)}. Type a name into each that is a channel.`,
  nameless: ({ rows }: { rows: readonly { readonly row: number; readonly cells: readonly string[] }[] }) => {
    const cellsOf = (cells: readonly string[]): string =>
      cells
        .slice(0, TELLING)
        .map((cell) => `“${asTyped(cell)}”`)
        .join(", ");
    const found = rows.map(({ row, cells }) => `row ${row} (${cellsOf(cells)})`);
    return `No name, so left out: ${some(found)}. Type a name into each that is a channel.`;
  },
  "no channel number": ({ cells, min, max }: { cells: readonly string[]; min: number; max: number }) =>
    `No channel number: ${cellsText(cells)}. Allowed: ${min} to ${max}, or two such as “13-14”. The channels come without one.`,
};

/** Something to be known of a list, by code. */
export type CsvNote = CodeOf<typeof NOTES>;

/** It in a sentence. */
export const describeCsvNote = (note: CsvNote): string => textOf(NOTES, note);

const grouped = (n: number): string => n.toLocaleString("en-GB");
const NOTHING = "Nothing was imported.";

interface Row {
  readonly row: number;
}

/** Why a file is no list. */
const REFUSALS = {
  blank: () => "The file has nothing in it but blanks.",
  empty: () => "The file is empty.",
  workbook: () => "This is a workbook or an archive, not CSV. Save the sheet as CSV and import that.",
  "no text": () => "This does not look like text. Allowed: CSV, that is lines of cells with a delimiter.",
  large: ({ bytes, most, rows }: { bytes: number; most: number; rows: number }) =>
    `${(bytes / 1e6).toFixed(1)} MB: too large for an input list. Allowed: ${most / 1e6} MB and ${rows} channels. ${NOTHING}`,
  "many rows": ({ rows, most }: { rows: number; most: number }) =>
    `${grouped(rows)} rows: too many. Allowed: ${most} channels. ${NOTHING}`,
  "open quote": ({ row }: Row) => `Row ${row}: a quotation mark is opened and never closed. ${NOTHING}`,
  "behind quote": ({ row }: Row) => `Row ${row}: there is more behind a closing quotation mark. ${NOTHING}`,
  "long cell": ({ row, most }: Row & { most: number }) =>
    `Row ${row}: a cell with more than ${grouped(most)} characters. ${NOTHING}`,
  "many columns": ({ row, most, delimiter }: Row & { most: number; delimiter: string }) =>
    `Row ${row}: more than ${most} columns. Is the ${delimiter} really the delimiter? ${NOTHING}`,
};

/** Why a file is no list, by code. */
export type CsvRefusal = CodeOf<typeof REFUSALS>;

/** It in a sentence. */
export const describeCsvRefusal = (refusal: CsvRefusal): string => textOf(REFUSALS, refusal);
