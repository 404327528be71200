import fc from "fast-check";
import Papa from "papaparse";
import { expect, it } from "vitest";
import { busContents } from "../../src/core/inputs/bus-contents";
import { listOf } from "../../src/core/inputs/list";
import { sheetRows } from "../../src/core/inputs/sheet";
import type { Setup } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { contentsToCsv, csvStyle, listToCsv, sheetToCsv } from "../../src/shelf/csv-write";
import { formatRowName } from "../../src/text/sheet";
import { anySetup } from "../core/inputs/setups";

// A reader of RFC 4180 that is not this project's own: what it sees is what a spreadsheet sees.
const opened = (text: string, delimiter: string): string[][] => {
  const { data, errors } = Papa.parse<string[]>(text, { delimiter, skipEmptyLines: true });
  expect(errors).toEqual([]);
  return data;
};

const HOSTILE = [
  "Vox;=1+1",
  "Vox,=1+1",
  "Vox\t=1+1",
  "Vox|@SUM(A1)",
  'Vox;"=1+1',
  "Vox\n=1+1",
  " =1+1",
  "\u200b=1+1",
  "Vox; \u3164+A1",
  "Vox =1+1",
  "=1+1",
  "=HYPERLINK(0)",
  "+A1",
  "-cmd|' /C calc'!A0",
  "@SUM(A1)",
  "\t=1",
  "'quoted",
  "''=",
  'say "x", loud',
  "a;b|c",
  "two\nlines",
  " blanks ",
  "Ünï 𝄞",
  "=",
];
const NUMBER = /^[+-]?\d+([.,]\d+)?$/;

/** A setup whose channels and sums have any names. */
const named = fc
  .tuple(
    anySetup(6, 12),
    fc.array(fc.oneof(fc.constantFrom(...HOSTILE), fc.string()), { minLength: 8, maxLength: 8 }),
  )
  .map(([s, names]): Setup => {
    const called = (i: number) => names[i % names.length] || "Name";
    return {
      ...s,
      channels: s.channels.map((x, i) => ({ ...x, name: called(i) })),
      buses: s.buses.map((x, i) => ({ ...x, name: called(i + 6) })),
    };
  });

const isHarmless = (cell: string): boolean => !/^[=+\-@\t\r\n＝＋－＠]/.test(cell) || NUMBER.test(cell);
/** Without the apostrophes, which a spreadsheet takes for "this is text". */
const plain = (cell: string): string => cell.replaceAll("'", "");

/** Other readers than the one it is written for: of another delimiter, or that know nothing of quotation marks. */
const READERS: readonly ((text: string) => string[])[] = [",", ";", "\t", "|"].flatMap((delimiter) => [
  (text: string) => Papa.parse<string[]>(text, { delimiter }).data.flat(),
  (text: string) => text.split(/\r\n|\r|\n/).flatMap((line) => line.split(delimiter)),
]);
/** Blanks, quotation marks and what nobody sees: Unicode's default ignorable code points, and the blank of Braille. */
const UNSEEN = /^[\s"\p{Default_Ignorable_Code_Point}\u2800]+/u;

it("whatever the delimiter of its reader, no cell is a formula", () => {
  fc.assert(
    fc.property(
      named,
      fc.constantFrom("en-GB", "de-AT"),
      fc.constantFrom(...READERS),
      (s, language, read) => {
        const style = csvStyle(language);
        for (const text of [listToCsv(listOf(s), style), sheetToCsv(s, sheetRows(s), style)])
          expect(
            read(text).filter((cell) => !isHarmless(cell.replace(UNSEEN, "").replace(/"+$/, ""))),
          ).toEqual([]);
      },
    ),
    { numRuns: 300 },
  );
});

it("nor behind a blank, where a reader cuts at blanks", () => {
  const text = listToCsv(
    listOf(exampleSetup()).map((row, i) => ({ ...row, name: HOSTILE[i % HOSTILE.length] ?? "" })),
  );
  expect(text.split(/\s/).filter((cell) => cell.startsWith("="))).toEqual([]);
});

it("a list opens in another reader: every cell in its place, none a formula", () => {
  fc.assert(
    fc.property(named, fc.constantFrom("en-GB", "de-AT"), (s, language) => {
      const style = csvStyle(language);
      const [header = [], ...lines] = opened(listToCsv(listOf(s), style), style.delimiter);
      expect(header.slice(0, 2)).toEqual(["Ch", "Name"]);
      expect(lines).toHaveLength(s.channels.length);
      for (const [i, line] of lines.entries()) {
        expect(line).toHaveLength(header.length);
        expect(line.filter((cell) => !isHarmless(cell))).toEqual([]);
        const name = s.channels[i]?.name ?? "";
        expect(plain(line[1] ?? "")).toBe(plain(name));
        const level = line[header.indexOf("Gated RMS dBFS")] ?? "";
        expect(level === "" ? null : Number(level.replace(",", "."))).toBe(s.channels[i]?.gatedRms);
      }
    }),
    { numRuns: 300 },
  );
});

it("so does the patch sheet", () => {
  fc.assert(
    fc.property(named, fc.constantFrom("en-GB", "de-AT"), (s, language) => {
      const style = csvStyle(language);
      const rows = sheetRows(s);
      const [header = [], ...lines] = opened(sheetToCsv(s, rows, style), style.delimiter);
      expect(lines.map((line) => line[0])).toEqual(rows.map((row) => String(row.input)));
      for (const [i, line] of lines.entries()) {
        expect(line).toHaveLength(header.length);
        expect(line.filter((cell) => !isHarmless(cell))).toEqual([]);
        const row = rows[i];
        const name = row ? formatRowName(s, row) : "";
        expect([name, plain(name)]).toContain(plain(line[1] ?? ""));
      }
    }),
    { numRuns: 300 },
  );
});

it("so does what is in the buses, each send to the last digit", () => {
  fc.assert(
    fc.property(named, fc.constantFrom("en-GB", "de-AT"), (s, language) => {
      const style = csvStyle(language);
      const [header = [], ...lines] = opened(contentsToCsv(s, style), style.delimiter);
      const sends = busContents(s).flatMap(({ contents }) => contents);
      expect(lines).toHaveLength(sends.length);
      expect(sends).toHaveLength(s.buses.reduce((sum, bus) => sum + bus.sends.length, 0));
      for (const [i, line] of lines.entries()) {
        expect(line).toHaveLength(header.length);
        expect(line.filter((cell) => !isHarmless(cell))).toEqual([]);
        const level = line[header.indexOf("Send, dB")] ?? "";
        expect(level === "−∞" ? null : Number(level.replace(",", "."))).toBe(sends[i]?.send.level);
        expect(line[header.indexOf("On")]).toBe(sends[i]?.send.on ? "on" : "off");
      }
    }),
    { numRuns: 300 },
  );
});

it("the cells that are made harmless are there, with their apostrophe", () => {
  const example = exampleSetup();
  const channels = example.channels.map((x, i) => ({ ...x, name: HOSTILE[i % HOSTILE.length] ?? "" }));
  const lines = opened(listToCsv(listOf({ ...example, channels })), ",").slice(1);
  expect(lines.slice(0, 18).map((line) => line[1])).toEqual([
    "Vox;'=1+1",
    "Vox,'=1+1",
    "Vox\t'=1+1",
    "Vox|'@SUM(A1)",
    "Vox;\"'=1+1",
    "Vox\n'=1+1",
    " '=1+1",
    "\u200b'=1+1",
    "Vox; \u3164'+A1",
    "Vox '=1+1",
    "'=1+1",
    "'=HYPERLINK(0)",
    "'+A1",
    "'-cmd|' /C calc'!A0",
    "'@SUM(A1)",
    "'\t'=1",
    "''quoted",
    "''''=",
  ]);
});
