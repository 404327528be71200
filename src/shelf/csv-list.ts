import { impliedBy } from "../core/inputs/implied";
import type { ListLine } from "../core/inputs/list";
import type { NamedFeed } from "../core/inputs/list-feeds";
import { joinSides } from "../core/inputs/list-join";
import { type InputName, readName } from "../core/inputs/names";
import { pieceOf } from "../core/inputs/pieces";
import type { NumberRule } from "../core/lib/number";
import { type Result, refused } from "../core/lib/result";
import type { Channel, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { parsePan } from "../core/pan/notation";
import { LIMITS, RANGES } from "../document/limits";
import type { CsvNote } from "../text/csv";
import type { CsvRow, CsvTable } from "./csv";
import { type Cell, readCellNumber, readInputs, readKind, readTap, readYes, unguard } from "./csv-cells";
import { type Mapping, panStepsOf } from "./csv-columns";
import { type Further, furtherOf, notesOfFurther, readExtra, readSends } from "./csv-further";
import { isWithoutChannel, notesOfNumbers, readNumbers } from "./csv-numbers";
import { type CellFault, type RowReader, rowReader } from "./csv-row";

/** An input list, whole; or every fault of it, and nothing. */
export type ListRead = Result<
  {
    lines: readonly ListLine[];
    /** Whether the list has a column of sends into a bus. */
    namesBuses: boolean;
    notes: readonly CsvNote[];
  },
  readonly CellFault[]
>;

const LEVEL: NumberRule = { name: "Gated RMS", ...RANGES.level, unit: "dBFS" };
const PEAK: NumberRule = { name: "Peak", ...RANGES.level, unit: "dBFS" };
const TRIM: NumberRule = { name: "Trim", ...RANGES.trim, unit: "dB" };

/** Names are single lines. */
const cleanName = (cell: string): string => cell.replace(/[\s\p{Cc}]+/gu, " ").trim();

const nameKey = (name: string): string => name.trim().toLowerCase();

/** What is said, without what is not. */
const said = <T extends object>(fields: { readonly [field in keyof T]: T[field] | undefined }): Partial<T> =>
  Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as Partial<T>;

const panReader = (setup: Pick<Setup, "desk">, header: string) => {
  const steps = panStepsOf(header);
  const notation = steps === null ? setup.desk : ({ panStyle: "steps", panSteps: steps } as const);
  return (text: string): Cell<number> => {
    const typed = parsePan(text, notation);
    if (typed.state === "value") return { ok: true, value: typed.value };
    return refused(
      typed.state === "wrong"
        ? { code: "typed", fault: typed.why }
        : { code: "part of a pan", cell: text, notation },
    );
  };
};

const UNKNOWN = ["–", "—", "-", "none", "not entered"];

/** A level, or the word that it is not known. */
const levelReader =
  (rule: NumberRule) =>
  (text: string): Cell<Db | null> =>
    UNKNOWN.includes(text.toLowerCase()) ? { ok: true, value: null } : readCellNumber(text, rule);

const feedsOf = (reader: RowReader, channels: 1 | 2): NamedFeed[] => {
  const inputs = reader.read("slot", (t) => readInputs(t, channels)) ?? [];
  const taps = reader.each("tap", inputs.length, readTap);
  const on = reader.each("on", inputs.length, (t) => readYes(t, "On"));
  const trims = reader.each("trim", inputs.length, (t) => readCellNumber(t, TRIM));
  const named = inputs.map(({ input, side }, i): NamedFeed => {
    const more = said<Pick<Required<NamedFeed>, "tap" | "on" | "trim">>({
      tap: taps[i],
      on: on[i],
      trim: trims[i],
    });
    return { input, side, ...more };
  });
  return named.sort((a, b) => a.input - b.input);
};

/** What all rows of one list are read with. */
interface ListReading {
  readonly setup: Pick<Setup, "desk" | "kit" | "channels">;
  readonly mapping: Mapping;
  readonly readPan: (text: string) => Cell<number>;
  /** The setup's channels by their names, of two alike the first. */
  readonly known: ReadonlyMap<string, Channel>;
  readonly further: Further;
}

const checkName = (reader: RowReader, name: string): void => {
  const letters = [...name].length;
  if (letters > LIMITS.name)
    reader.fault("name", { code: "long name", cell: name, letters, most: LIMITS.name });
};

const lineOf = (reader: RowReader, input: InputName, name: string, list: ListReading): ListLine => {
  checkName(reader, name);
  const numbers = readNumbers(reader, input);
  const kind = reader.read("kind", readKind);
  const width = reader.read("stereo", (t) =>
    readYes(t, "Stereo", [
      ["stereo", "2", "st"],
      ["mono", "1"],
    ]),
  );
  const stereo = width ?? (numbers.length === 2 ? true : undefined);
  const guessed =
    list.known.get(nameKey(name))?.lines ?? (input.stereo && list.mapping.stereo === null ? 2 : 1);
  const channels = stereo === undefined ? guessed : stereo ? 2 : 1;
  const feeds = feedsOf(reader, channels);
  const sends = readSends(reader, list.further, list.readPan);
  const extra = readExtra(reader, list.further);
  const isDrum = (kind ?? input.kind) === "drum";
  const piece = isDrum && list.mapping.piece === null ? pieceOf(list.setup.kit.pieces, input) : null;
  return {
    name,
    numbers,
    says: {
      ...said<Omit<Required<ListLine["says"]>, "feeds" | "sends" | "extra">>({
        kind,
        piece: cleanName(reader.text("piece")) || undefined,
        lines: stereo === undefined ? undefined : channels,
        pan: reader.read("pan", list.readPan),
        muted: reader.read("muted", (t) => readYes(t, "Mute", [["muted"], []])),
        inverted: reader.read("polarity", (t) =>
          readYes(t, "Polarity", [["inverted", "reversed"], ["normal"]]),
        ),
        gatedRms: reader.read("level", levelReader(LEVEL)),
        peak: reader.read("peak", levelReader(PEAK)),
        keepSides: reader.read("keepSides", (t) => readYes(t, "Keep L/R")),
      }),
      ...(feeds.length > 0 ? { feeds } : {}),
      ...(sends.length > 0 ? { sends } : {}),
      ...(extra.length > 0 ? { extra } : {}),
    },
    otherwise: impliedBy(input, channels, piece),
  };
};

/** Monitor inputs that more than one line names. */
const clashes = (
  lines: readonly { readonly row: number; readonly line: ListLine }[],
  column: number | null,
): CellFault[] => {
  const first = new Map<number, number>();
  return lines.flatMap(({ row, line }) =>
    (line.says.feeds ?? []).flatMap(({ input }): CellFault[] => {
      const other = first.get(input);
      if (other === undefined) {
        first.set(input, row);
        return [];
      }
      const problem = { code: "input taken", input, row: other } as const;
      return [{ row, column: column === null ? null : column + 1, field: "slot", problem }];
    }),
  );
};

/** What was left out because it has no name, by its row and what stands in it, so that it can be found. */
const notesOfNameless = (rows: readonly CsvRow[]): CsvNote[] => {
  if (rows.length === 0) return [];
  const typed = ({ number, cells }: CsvRow) => ({
    row: number,
    cells: cells.map((cell) => unguard(cell).trim()).filter((cell) => cell !== ""),
  });
  return [{ code: "nameless", rows: rows.map(typed) }];
};

/** What is to be known of the lines. */
const notesOf = (
  lines: readonly { readonly row: number; readonly line: ListLine }[],
  pairs: readonly ListLine[],
  { mapping, setup, further }: ListReading,
): CsvNote[] => {
  const pieces = new Set(setup.kit.pieces.map((p) => nameKey(p.name)));
  const strange = lines.flatMap(({ row, line: { says } }): CsvNote[] =>
    says.piece === undefined || says.piece === null || pieces.has(nameKey(says.piece))
      ? []
      : [{ code: "no such piece", row, piece: says.piece }],
  );
  const alone = (["tap", "on", "trim"] as const).some((f) => mapping[f] !== null) && mapping.slot === null;
  return [
    ...(pairs.length === 0 ? [] : [{ code: "joined", names: pairs.map((p) => p.name) } as const]),
    ...notesOfFurther(further),
    ...(alone ? [{ code: "no column of inputs" } as const] : []),
    ...strange,
  ];
};

/**
 * Makes an input list of a table, by the mapping that the user has seen. All of it or nothing: one wrong cell, and only the
 * faults come back, each with its row and column. A column that is not chosen, or a blank cell, says nothing.
 * @param header the first row names the columns; without it the channel's numbers are part of the names ("12 Bass DI")
 */
export const readList = (
  table: Pick<CsvTable, "rows">,
  mapping: Mapping,
  header: boolean,
  setup: Pick<Setup, "desk" | "kit" | "channels">,
): ListRead => {
  const all = header ? table.rows.slice(1) : table.rows;
  const rows = all.filter((row) => !isWithoutChannel(row, mapping));
  if (mapping.name === null || rows.length === 0) {
    const problem = { code: rows.length === 0 ? "no rows" : "no name column" } as const;
    return refused([{ row: table.rows[0]?.number ?? 1, column: null, field: "name", problem }]);
  }
  const headers = header ? (table.rows[0]?.cells ?? []) : [];
  const known = new Map([...setup.channels].reverse().map((s) => [nameKey(s.name), s]));
  const readPan = panReader(setup, mapping.pan === null ? "" : (headers[mapping.pan] ?? ""));
  const further = furtherOf(rows, headers, mapping);
  const reading: ListReading = { setup, mapping, readPan, known, further };
  const faults: CellFault[] = [];
  let input: InputName | null = null;
  const nameless: CsvRow[] = [];
  const lines: { row: number; line: ListLine; input: InputName }[] = [];
  for (const row of rows) {
    const reader = rowReader(row, mapping, faults);
    const typed = cleanName(reader.text("name"));
    const read = readName(typed, input?.kind ?? null);
    const name = header || known.has(nameKey(typed)) ? typed : read.name;
    if (name === "") {
      nameless.push(row);
      continue;
    }
    input = read;
    lines.push({ row: row.number, line: lineOf(reader, input, name, reading), input });
  }
  if (lines.length === 0) {
    const problem = { code: "no names", rows: rows.length } as const;
    return refused([{ row: rows[0]?.number ?? 1, column: mapping.name + 1, field: "name", problem }]);
  }
  faults.push(...clashes(lines, mapping.slot));
  if (faults.length > 0) {
    faults.sort((a, b) => a.row - b.row || (a.column ?? 0) - (b.column ?? 0));
    return refused(faults);
  }
  const joined =
    mapping.stereo === null
      ? joinSides(lines, new Set(known.keys()))
      : { lines: lines.map((l) => l.line), pairs: [] };
  return {
    ok: true,
    lines: joined.lines,
    namesBuses: further.buses.length > 0,
    notes: [
      ...notesOfNumbers(all, mapping),
      ...notesOfNameless(nameless),
      ...notesOf(lines, joined.pairs, reading),
    ],
  };
};
