import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type ListRow, listOf, withList } from "../../src/core/inputs/list";
import { extraHeads } from "../../src/core/inputs/list-extra";
import { type ListBus, listBusOf } from "../../src/core/inputs/list-sends";
import { sheetRows } from "../../src/core/inputs/sheet";
import type { Channel, Setup } from "../../src/core/model/setup";
import { blankSetup } from "../../src/document/blank";
import { exampleSetup } from "../../src/document/example";
import { CSV_LIMITS, type CsvTable, type Delimiter, isDelimiter, openCsv } from "../../src/shelf/csv";
import { guard, unguard } from "../../src/shelf/csv-cells";
import type { ListField } from "../../src/shelf/csv-columns";
import { readList } from "../../src/shelf/csv-list";
import type { CellFault } from "../../src/shelf/csv-row";
import { csvStyle, listToCsv, sheetToCsv } from "../../src/shelf/csv-write";
import { type CsvRefusal, describeCellProblem, describeCsvRefusal } from "../../src/text/csv";
import { wholeLine, wholeRow } from "../core/inputs/lines";
import { anySetup } from "../core/inputs/setups";

const utf16 = (text: string, littleEndian: boolean, mark: boolean): Uint8Array<ArrayBuffer> => {
  const marked = mark ? `\uFEFF${text}` : text;
  const bytes = new DataView(new ArrayBuffer(marked.length * 2));
  for (let i = 0; i < marked.length; i += 1) bytes.setUint16(i * 2, marked.charCodeAt(i), littleEndian);
  return new Uint8Array(bytes.buffer);
};

const open = async (content: string | Uint8Array<ArrayBuffer>, delimiter?: Delimiter): Promise<CsvTable> => {
  const opened = await openCsv(new Blob([content]), delimiter);
  if (!opened.ok) throw new Error(opened.why.code);
  return opened.table;
};

const refusal = async (content: string | Uint8Array<ArrayBuffer>): Promise<CsvRefusal | null> => {
  const opened = await openCsv(new Blob([content]));
  return opened.ok ? null : opened.why;
};

const rowsOf = (table: CsvTable, setup = blankSetup()): readonly ListRow[] => {
  const read = readList(table, table.mapping, table.header, setup);
  if (!read.ok) throw new Error(read.why.map((f) => `${f.row}/${f.column} ${f.problem.code}`).join("; "));
  return read.lines.map(wholeRow);
};

const faultsOf = async (text: string): Promise<readonly CellFault[]> => {
  const table = await open(text);
  const read = readList(table, table.mapping, table.header, blankSetup());
  return read.ok ? [] : read.why;
};

const names = async (content: string | Uint8Array<ArrayBuffer>) =>
  rowsOf(await open(content)).map((r) => r.name);

/** The mapped fields only. */
const mapped = (table: CsvTable): { readonly [field in ListField]?: number } =>
  Object.fromEntries(Object.entries(table.mapping).filter(([, at]) => at !== null));

describe("a table", () => {
  const LINES = ["Name", "Pan", "Level"];
  it.each([",", ";", "\t", "|", ":", "^", "~", "¦", "/", "#"])("is cut at %j", async (delimiter) => {
    const text = [LINES, ["Kick", "C", "-20"], ["Hat", "R30", "-30"]]
      .map((l) => l.join(delimiter))
      .join("\n");
    const table = await open(text);
    expect(table).toMatchObject({ delimiter, header: true });
    expect(mapped(table)).toEqual({ name: 0, pan: 1, level: 2 });
    expect(rowsOf(table).map((r) => [r.name, r.pan, r.gatedRms])).toEqual([
      ["Kick", 0, -20],
      ["Hat", 0.3, -30],
    ]);
  });

  it.each([" ", "x", "é", "-", "."])("is cut at %j where the user says so", async (delimiter) => {
    const text = [LINES, ["Kick", "C", "20"], ['"Hat inside"', "", "30"]]
      .map((l) => l.join(delimiter))
      .join("\n");
    const table = await open(text, delimiter);
    expect(table.rows.map((r) => r.cells)).toEqual([LINES, ["Kick", "C", "20"], ["Hat inside", "", "30"]]);
  });

  it("is not cut at a mark that names and numbers have, with headers or without", async () => {
    expect(await names("Name,Pan\nKick: in,10:30\nKick: out,2:30\n")).toEqual(["Kick: in", "Kick: out"]);
    expect(await names("Kick: in\nKick: out\n")).toEqual(["Kick: in", "Kick: out"]);
    expect(await names("Name:Pan\nToms, high:C\nToms, low:C\n")).toEqual(["Toms, high", "Toms, low"]);
    expect(await names("Name / Pan,Level\nKick / C,-20\n")).toEqual(["Kick / C"]);
  });

  it("takes no quotation mark, line end or word for a delimiter", () => {
    expect(["", '"', "\n", "\r", ",,", "sep"].filter(isDelimiter)).toEqual([]);
    expect([",", " ", "x", "¦"].filter(isDelimiter)).toHaveLength(4);
  });

  it("keeps decimal commas apart from semicolons", async () => {
    expect(rowsOf(await open("Name;Level\nKick;-6,5\nHat;\u22127,25\n")).map((r) => r.gatedRms)).toEqual([
      -6.5, -7.25,
    ]);
  });

  it("reads quoted cells with delimiters, doubled quotes and line ends in them", async () => {
    const table = await open('Name,Level\r\n"Toms, ""all""\r\nof them",-20\r\nHat,-30\r\n');
    expect(rowsOf(table).map((r) => r.name)).toEqual(['Toms, "all" of them', "Hat"]);
    expect(table.rows.map((r) => r.number)).toEqual([1, 2, 3]);
  });

  it("leaves a mark for inches a letter, and blanks before a quoted cell out", async () => {
    expect(await names('Name,Pan\n10" tom,C\n "Kick, in" ,C\n')).toEqual(['10" tom', "Kick, in"]);
  });

  it("reads every line end, also mixed, and blank rows behind the last", async () => {
    expect(await names("Name\rKick\r\nHat\nTom\n\n\r\n")).toEqual(["Kick", "Hat", "Tom"]);
    expect(await names(`Name;Pan\nKick;C\n${";\n".repeat(900)}`)).toEqual(["Kick"]);
  });

  it("takes a first line that names the delimiter, and the user's word over it", async () => {
    const table = await open("sep=;\nName;Pan\nKick, in;C\n");
    expect(rowsOf(table).map((r) => r.name)).toEqual(["Kick, in"]);
    expect(table.rows[0]?.number).toBe(2);
    expect((await open("Name;Pan\nKick;C\n", ",")).rows[0]?.cells).toEqual(["Name;Pan"]);
    expect((await open("sep=^\na^b\nc^d\n")).delimiter).toBe("^");
  });

  const ACCENTS = "Name,Pan\nHäkan,C\nZoë,L20\n";
  it.each([
    ["UTF-8 with a mark", new TextEncoder().encode(`\uFEFF${ACCENTS}`)],
    ["UTF-16 LE with a mark", utf16(ACCENTS, true, true)],
    ["UTF-16 BE with a mark", utf16(ACCENTS, false, true)],
    ["UTF-16 LE without", utf16(ACCENTS, true, false)],
    ["UTF-16 BE without", utf16(ACCENTS, false, false)],
    ["Windows-1252", Uint8Array.from(ACCENTS, (c) => c.charCodeAt(0))],
  ])("is read from %s", async (_, bytes) => {
    expect(await names(bytes)).toEqual(["Häkan", "Zoë"]);
  });

  it("is read from UTF-16 without a mark where letters need both bytes", async () => {
    for (const littleEndian of [true, false]) {
      expect(await names(utf16("Name,Pan\nŁucja,C\nJiří,L20\n", littleEndian, false))).toEqual([
        "Łucja",
        "Jiří",
      ]);
    }
  });

  it("leaves NULs out and says so", async () => {
    const table = await open("Name,Pan\nKi\0ck,C\n");
    expect(rowsOf(table).map((r) => r.name)).toEqual(["Kick"]);
    expect(table.notes).toEqual([{ code: "nul" }]);
  });

  it("of one column is a list of names, with or without a header", async () => {
    const table = await open("Kick\nSnare\nHat\n");
    expect(table.header).toBe(false);
    expect(table.notes).toEqual([{ code: "one column" }]);
    expect(rowsOf(table).map((r) => [r.name, r.kind])).toEqual([
      ["Kick", "drum"],
      ["Snare", "drum"],
      ["Hat", "drum"],
    ]);
  });

  it("guesses the name column: “Channel” with numbers in it is none", async () => {
    expect(mapped(await open("Channel,Instrument,Slot\n1,Kick,3\n2,Bass,4\n"))).toEqual({
      number: 0,
      name: 1,
      slot: 2,
    });
    expect(mapped(await open("Channel,House Pan,Peak (dBFS)\nKick,C,-9\n"))).toEqual({
      name: 0,
      pan: 1,
      peak: 2,
    });
    expect(mapped(await open("1;Kick;yes\n2;Bass;no\n"))).toEqual({ number: 0, name: 1 });
  });
});

describe("an input list", () => {
  it("is all or nothing, every fault with its row, column, value and what is allowed", async () => {
    const faults = await faultsOf(
      "Name,Pan,Level,Stereo,Slot,Tap point\nKick,L300,loud,perhaps,0,roof\n,C,-20,,,\n",
    );
    expect(faults.map((f) => [f.row, f.column, f.field])).toEqual([
      [2, 2, "pan"],
      [2, 3, "level"],
      [2, 4, "stereo"],
      [2, 5, "slot"],
      [2, 6, "tap"],
    ]);
    expect(faults.map((f) => f.problem)).toEqual([
      { code: "typed", fault: { code: "outside steps", typed: "L300", of: 100, unit: "" } },
      {
        code: "typed",
        fault: {
          code: "no number",
          typed: "loud",
          rule: { name: "Gated RMS", min: -120, max: 24, unit: "dBFS" },
        },
      },
      { code: "not yes", title: "Stereo", cell: "perhaps", allowed: ["stereo", "mono"] },
      { code: "far input", input: 0, most: 192 },
      { code: "tap", cell: "roof" },
    ]);
  });

  it("says which tap points and kinds there are, and inputs taken twice", async () => {
    const [tap] = await faultsOf("Name,Slot,Tap point\nKick,3,roof\n");
    expect(tap?.problem).toEqual({ code: "tap", cell: "roof" });
    const [kind] = await faultsOf("Name,Kind\nKick,anvil\n");
    expect(kind?.problem).toEqual({
      code: "kind",
      cell: "anvil",
      allowed: expect.arrayContaining(["audience mic", "bass", "click", "drum"]),
    });
    const [input] = await faultsOf("Name,Slot\nKick,3\nHat,3\n");
    expect(input).toMatchObject({
      row: 3,
      column: 2,
      problem: { code: "input taken", input: 3, row: 2 },
    });
  });

  it("needs a name column and a row", async () => {
    const table = await open("Name,Pan\nKick,C\n");
    const none = readList(table, { ...table.mapping, name: null }, true, blankSetup());
    expect(none).toMatchObject({ ok: false, why: [{ problem: { code: "no name column" } }] });
    expect((await faultsOf("Name,Pan\n"))[0]?.problem).toEqual({ code: "no rows" });
  });

  it("follows the mapping that the user sets", async () => {
    const table = await open("Name,Nick\nKick,Boom\n");
    const read = readList(table, { ...table.mapping, name: 1 }, true, blankSetup());
    expect(read).toMatchObject({ ok: true, lines: [{ name: "Boom" }] });
  });

  it("reads inputs of two channels, and one value for all or one for each", async () => {
    const text =
      "Name,Stereo,Slot,Tap,On,Trim\nKeys,yes,5/6,before EQ,yes,-3 & 0\nTracks,2,8R 9L,,no & yes,\n";
    const [keys, tracks] = rowsOf(await open(text));
    expect(keys?.feeds).toEqual([
      { input: 5, side: "left", tap: "pre-eq", on: true, trim: -3 },
      { input: 6, side: "right", tap: "pre-eq", on: true, trim: 0 },
    ]);
    expect(tracks?.feeds.map((f) => [f.input, f.side, f.on])).toEqual([
      [8, "right", false],
      [9, "left", true],
    ]);
    expect((await faultsOf("Name,Slot,Trim\nKick,3,1 & 2\n"))[0]?.problem).toEqual({
      code: "many values",
      title: "Trim dB",
      values: 2,
      inputs: 1,
    });
    expect((await faultsOf("Name,Slot\nKick,3L\n"))[0]?.problem).toMatchObject({ code: "side of mono" });
  });

  it("takes what a name says where no column says the kind", async () => {
    const text = "OH L,Kick in,Lead vox,Bass DI,E-Gtr,Keys L,Trumpet,Click,Talkback,Theremin,MC,Vln 1,Perc";
    const rows = rowsOf(await open(`Name\n${text.replaceAll(",", "\n")}\n`));
    expect(rows.map((r) => r.kind).join()).toBe(
      "drum,drum,lead-vocal,bass,guitar,keys,horn,click,talkback,other,speech,strings,percussion",
    );
    expect(rows.map((r) => r.pan)).toEqual([-1, ...Array(12).fill(0)]);
  });

  it("notes pieces that the kit has not", async () => {
    const table = await open("Name,Stands at\nHat,Hat\nGong,Gong\n");
    const read = readList(table, table.mapping, true, exampleSetup());
    expect(read).toMatchObject({
      ok: true,
      notes: [{ code: "no such piece", row: 3, piece: "Gong" }],
    });
  });
});

describe("a list as people write it", () => {
  const HEADS = ["Ch", "Name", "Mic", "Stand", "48V", "Notes"];
  const BAND = [
    ["1", "Kik In", "dynamic", "short boom", "", ""],
    ["2", "Snr Top", "dynamic", "boom", "", "taped"],
    ["3", "OH SR", "condenser", "tall boom", "yes", ""],
    ["4", "OH SL", "condenser", "tall boom", "yes", ""],
    ["5", "Bass DI", "", "", "yes", ""],
    ["13", "Keys L", "", "", "", "bring DI; two"],
    ["14", "Keys R", "", "", "", ""],
    ["21", "BV 1", "dynamic", "straight", "", ""],
  ];
  const cut = (delimiter: string, order: readonly number[]): string =>
    [HEADS, ...BAND].map((row) => order.map((i) => `"${row[i]}"`).join(delimiter)).join("\n");

  it.each([
    [",", [0, 1, 2, 3, 4, 5]],
    [";", [5, 4, 3, 2, 1, 0]],
    ["\t", [1, 0, 2, 4, 3, 5]],
    ["|", [2, 1, 0, 3, 4, 5]],
  ] as const)("is read at %j, columns in order %j", async (delimiter, order) => {
    const table = await open(cut(delimiter, order));
    expect(table).toMatchObject({ delimiter, header: true });
    expect(mapped(table)).toEqual({ number: order.indexOf(0 as never), name: order.indexOf(1 as never) });
    const read = readList(table, table.mapping, table.header, exampleSetup());
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(read.lines.map((l) => [l.numbers.join("-"), l.name])).toEqual([
      ["1", "Kik In"],
      ["2", "Snr Top"],
      ["3", "OH SR"],
      ["4", "OH SL"],
      ["5", "Bass DI"],
      ["13-14", "Keys"],
      ["21", "BV 1"],
    ]);
    const extra = (at: number): string[] =>
      (read.lines[at]?.says.extra ?? []).map(({ head, value }) => `${head}: ${value}`).sort();
    const there = (...columns: string[]) =>
      columns.filter((c) => order.includes(HEADS.indexOf(c.split(":")[0] ?? "") as never)).sort();
    expect(extra(0)).toEqual(there("Mic: dynamic", "Stand: short boom"));
    expect(extra(1)).toEqual(there("Mic: dynamic", "Stand: boom", "Notes: taped"));
    expect(extra(2)).toEqual(there("Mic: condenser", "Stand: tall boom", "48V: yes"));
    expect(extra(5)).toEqual(there("Notes: bring DI; two"));
    expect(read.lines.map(({ says: { extra: _, ...says } }) => says)).toEqual([
      ...Array(5).fill({}),
      { lines: 2 },
      {},
    ]);
    expect(read.lines.map(({ otherwise: o }) => [o.kind, o.piece, o.lines, o.pan, o.keepSides])).toEqual([
      ["drum", "Kick", 1, 0, false],
      ["drum", "Snare", 1, 0, false],
      ["drum", "Overhead L", 1, -1, false],
      ["drum", "Overhead R", 1, 1, false],
      ["bass", null, 1, 0, false],
      ["keys", null, 2, 0, true],
      ["vocal", null, 1, 0, false],
    ]);
    expect(read.notes[0]).toEqual({ code: "joined", names: ["Keys"] });
    const kept = HEADS.filter((_, at) => at > 1 && order.includes(at as never));
    expect(read.notes[1]).toEqual({ code: "kept", heads: expect.arrayContaining(kept) });
    expect(read.notes[1]).not.toEqual({ code: "kept", heads: expect.arrayContaining(["Ch"]) });
    expect(read.notes[1]).not.toEqual({ code: "kept", heads: expect.arrayContaining(["Name"]) });
  });

  it("over a band changes nothing of what it does not name", async () => {
    const example = exampleSetup();
    const lines = example.channels.map((s) => `${s.numbers.join("-")},${s.name},,,,`);
    const table = await open(`Ch,Name,Mic,Stand,48V,Notes\n${lines.join("\n")}\n`);
    const read = readList(table, table.mapping, table.header, example);
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(withList(example, read.lines, "add")).toEqual(example);
    expect(withList(example, read.lines, "replace")).toEqual(example);
  });

  it("a blank cell changes nothing, a dash makes a level unknown", async () => {
    const example = exampleSetup();
    const table = await open("Name,Level,Peak,Pan,Mute,Slot\nBass,,,,,\nGuitar,–,not entered,L10,,\n");
    const read = readList(table, table.mapping, table.header, example);
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(read.lines.map((l) => l.says)).toEqual([{}, { gatedRms: null, peak: null, pan: -0.1 }]);
  });

  it("pasted without heads: numbers in front of the names are the channels’", async () => {
    const table = await open("1 Kik In\n2 Snr Top\n12 Bass DI\n13-14 Keys\n15/16 Trks\nOH SR\n");
    const read = readList(table, table.mapping, table.header, blankSetup());
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(read.lines.map((l) => [l.numbers.join(), l.name, l.otherwise.kind, l.otherwise.lines])).toEqual([
      ["1", "Kik In", "drum", 1],
      ["2", "Snr Top", "drum", 1],
      ["12", "Bass DI", "bass", 1],
      ["13,14", "Keys", "keys", 2],
      ["15,16", "Trks", "playback", 2],
      ["", "OH SR", "drum", 1],
    ]);
  });

  it.each([
    ["Name,Pan,Slot,Level\nKeys R,R100,6,-20\nKeys L,L100,5,-18\n", { pan: 0, gatedRms: -18 }],
    ["Name,Pan,Slot\nVox Verb L,L50,5\nVox Verb R,R50,6\n", { pan: 0 }],
  ])("joins L and R: %s", async (text, says) => {
    const table = await open(text);
    const read = readList(table, table.mapping, table.header, blankSetup());
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(read.lines).toHaveLength(1);
    expect(read.lines[0]?.says).toMatchObject({ lines: 2, ...says });
    expect(read.lines[0]?.says.feeds).toEqual([
      { input: 5, side: "left" },
      { input: 6, side: "right" },
    ]);
  });

  it.each([
    ["drum microphones", "Name\nTom L\nTom R\n"],
    ["audience microphones", "Name\nAud L\nAud R\n"],
    ["what is not neighboured", "Name\nKeys L\nBass\nKeys R\n"],
    ["another number", "Name\nKeys 1 L\nKeys 2 R\n"],
    ["one side twice", "Name\nKeys L\nKeys L\n"],
    ["pans that are no mirror", "Name,Pan\nKeys L,L100\nKeys R,R20\n"],
    ["a mute of one", "Name,Mute\nKeys L,yes\nKeys R,no\n"],
    ["a list that says its widths", "Name,Stereo\nKeys L,mono\nKeys R,mono\n"],
    ["two microphones of one instrument", "Name\nOrgan Hi\nOrgan Lo\n"],
  ])("joins no %s", async (_, text) => {
    const table = await open(text);
    const read = readList(table, table.mapping, table.header, blankSetup());
    expect(read.ok && read.lines.map((l) => l.name)).toEqual(table.rows.slice(1).map((r) => r.cells[0]));
  });

  it("joins no channels that the setup has by their names", async () => {
    const setup = exampleSetup();
    const [bass, ...rest] = setup.channels;
    const own = { ...setup, channels: [{ ...(bass as (typeof rest)[number]), name: "Keys L" }, ...rest] };
    const table = await open("Name\nKeys L\nKeys R\n");
    const read = readList(table, table.mapping, table.header, own);
    expect(read.ok && read.lines.map((l) => l.name)).toEqual(["Keys L", "Keys R"]);
  });
});

describe("heads", () => {
  const row: ListRow = {
    numbers: [],
    name: "Vox",
    kind: "vocal",
    piece: "Hat",
    lines: 2,
    pan: -0.3,
    muted: true,
    inverted: true,
    gatedRms: -20,
    peak: -8,
    keepSides: true,
    feeds: [{ input: 3, side: "both", tap: "pre-hpf", on: false, trim: -3 }],
    sends: [],
    extra: [],
  };
  const NEW =
    "Ch,Name,Kind,Kit piece,Stereo,Channel pan L100 to R100,Mute,Polarity,Gated RMS dBFS,Peak dBFS,Keep L/R,Monitor input,Tap point,On,Trim dB";
  const OLD =
    "Name,Kind,Stands at,Stereo,Pan of 100,Muted,Polarity,Level dBFS,Peak dBFS,Keep sides,Slot,Tap point,On,Trim dB";

  it("are written in the trade’s words", () => {
    expect(listToCsv([row]).slice(1).split("\r\n")[0]).toBe(NEW);
    expect(listToCsv([row])).toContain("\r\n,Vox,vocal,");
    expect(sheetToCsv(exampleSetup(), []).slice(1)).toBe('In,Name,From,Port,Tap point,On,"Trim, dB",L/R\r\n');
  });

  it.each([
    ["of today", NEW, [11, 14], "11 & 14,", "vocal", "pre-HPF"],
    [
      "with “Drum” for the kit piece",
      NEW.replace("Kit piece", "Drum"),
      [11, 14],
      "11 & 14,",
      "vocal",
      "pre-HPF",
    ],
    ["with a pan “of 100”", NEW.replace("L100 to R100", "of 100"), [11, 14], "11 & 14,", "vocal", "pre-HPF"],
    ["of before", OLD, [], "", "voice", "before filter"],
  ])("%s are read", async (_, heads, numbers, ch, kind, tap) => {
    const line = `${ch}Vox,${kind},Hat,stereo,L30,yes,inverted,-20,-8,yes,3M,${tap},no,-3`;
    expect(rowsOf(await open(`${heads}\n${line}\n`))).toEqual([{ ...row, numbers }]);
  });

  it("of a pan say its range, whatever the desk’s own is", async () => {
    const pansOf = async (head: string, cell: string) => {
      const table = await open(`Name,${head}\nVox,${cell}\n`);
      const desk = { ...blankSetup().desk, panSteps: 20 };
      return rowsOf(table, { ...blankSetup(), desk }).map((r) => r.pan);
    };
    for (const head of ["Channel pan L50 to R50", "Pan l50 to r50", "Pan of 50", "Channel pan (L50 to R50)"])
      expect(await pansOf(head, "R25"), head).toEqual([0.5]);
    expect(await pansOf("Pan", "R10")).toEqual([0.5]);
    // What small steps can’t say is written in parts of 1, under a head that says so.
    const csv = listToCsv([{ ...row, pan: -0.123 }]).slice(1);
    expect(csv).toContain(",Channel pan L1 to R1,");
    expect(rowsOf(await open(csv)).map((r) => r.pan)).toEqual([-0.123]);
  });

  it.each([
    ["pre-HPF", "pre-hpf"],
    ["Pre EQ", "pre-eq"],
    ["pre-fader", "pre-fader"],
    ["POST", "post-fader"],
    ["after fader", "post-fader"],
  ])("tap point %s", async (tap, means) => {
    expect(rowsOf(await open(`Name,Slot,Tap\nVox,3,${tap}\n`))[0]?.feeds[0]?.tap).toBe(means);
  });
});

describe("a list as it comes from a stage", () => {
  const read = async (text: string, setup = blankSetup()) => {
    const table = await open(text);
    const list = readList(table, table.mapping, table.header, setup);
    if (!list.ok) throw new Error(list.why[0]?.problem.code);
    return {
      channels: withList(setup, list.lines, "add").channels.map((c) => [
        c.numbers.join("-"),
        c.name,
        c.lines,
      ]),
      notes: [...table.notes, ...list.notes],
    };
  };

  it("may have titles above its headers: they are left out, and that is said", async () => {
    const text =
      "Hall band, Thursday;;;\n;;;\nDoors 7 pm;two sets;;\nInput;Source;Mic;48V\n1;Kick;dynamic;\n2;Snr;;yes\n";
    const { channels, notes } = await read(text);
    expect(channels).toEqual([
      ["1", "Kick", 1],
      ["2", "Snr", 1],
    ]);
    expect(notes[0]).toEqual({
      code: "above the headers",
      cells: ["Hall band, Thursday", "Doors 7 pm", "two sets"],
    });
  });

  it("has no header below rows that are as full: they are channels", async () => {
    const { channels } = await read("1\tKick\tdynamic\tclip\n2\tHost\tline\tstage box\n");
    expect(channels.map(([, name]) => name)).toEqual(["Kick", "Host"]);
  });

  it("leaves spare channels and the titles of sections out, and says so", async () => {
    const { channels, notes } = await read("Ch,Name,Mic\nDRUMS,,\n1,Kick,dynamic\n2,,\n3,Snr,\n");
    expect(channels.map(([number]) => number)).toEqual(["1", "3"]);
    expect(notes).toContainEqual({ code: "left out", cells: ["DRUMS", "2"] });
    expect((await faultsOf("Ch,Name,Mic\n2,,\n"))[0]?.problem).toEqual({ code: "no rows" });
  });

  it("leaves a row without a name out, says which by its line and cells, and reads the rest", async () => {
    const text =
      "Band\n\nCh,Name,Mic,Stand,Notes\n1,Kick,dynamic,,\n2,,dynamic,tall,clip\n3,Snr,,,\n\n4, ,,,spare line\n";
    const { channels, notes } = await read(text);
    expect(channels.map(([number, name]) => [number, name])).toEqual([
      ["1", "Kick"],
      ["3", "Snr"],
    ]);
    expect(notes).toContainEqual({
      code: "nameless",
      rows: [
        { row: 5, cells: ["2", "dynamic", "tall", "clip"] },
        { row: 8, cells: ["4", "spare line"] },
      ],
    });
    // A wrong cell of such a row is no fault, one of another row still is.
    expect(await faultsOf("Ch,Name,Pan\n1,Kick,C\n2,,L300\n")).toEqual([]);
    expect((await faultsOf("Ch,Name,Pan\n1,Kick,L300\n2,,C\n")).map((f) => f.row)).toEqual([2]);
    expect(
      (await faultsOf("Ch,Name,Mic\n2,,dynamic\n")).map(({ row, column, problem }) => [row, column, problem]),
    ).toEqual([[2, 2, { code: "no names", rows: 1 }]]);
    expect((await faultsOf("Ch,Name,Mic\n2,,dynamic\n3,,clip\n"))[0]?.problem).toEqual({
      code: "no names",
      rows: 2,
    });
  });

  it("says which cells are no channel number", async () => {
    const { channels, notes } = await read("Ch,Name\n1,Kick\nFX 1,Verb\n0,Foo\n1000,Bar\n,Baz\n");
    expect(channels.map(([number]) => number)).toEqual(["1", "", "", "", ""]);
    expect(notes).toEqual([{ code: "no channel number", cells: ["FX 1", "0", "1000"], min: 1, max: 999 }]);
  });

  it("has a stereo channel where a row has two numbers, and none with more", async () => {
    const { channels } = await read("Ch,Name\n13-14,Keys\n15/16,Loops\n5,Pad L\n5,Pad R\n");
    expect(channels).toEqual([
      ["13-14", "Keys", 2],
      ["15-16", "Loops", 2],
      ["5", "Pad", 2],
    ]);
    const [keys] = exampleSetup().channels;
    const mono = { ...blankSetup(), channels: [{ ...(keys as Channel), name: "Keys", lines: 1 as const }] };
    expect((await read("Ch,Name\n13-14,Keys\n", mono)).channels).toEqual([["13-14", "Keys", 2]]);
    expect((await faultsOf("Ch,Name\n5-9,Horns\n"))[0]).toMatchObject({
      row: 2,
      column: 1,
      problem: { code: "many numbers", cell: "5-9", count: 5 },
    });
    expect((await faultsOf("1 Kick\n13-16 Keys\n"))[0]?.problem).toMatchObject({ count: 4 });
  });

  it("may have no header over its channel numbers", async () => {
    const { channels, notes } = await read(";Name;Mic\n1;Kick;dynamic\n13-14;Keys;\n");
    expect(channels).toEqual([
      ["1", "Kick", 1],
      ["13-14", "Keys", 2],
    ]);
    expect(notes).toEqual([{ code: "kept", heads: ["Mic"] }]);
    expect((await read(";;Mic\n1;Kick;dynamic\n2;Snr;\n")).channels.map(([, name]) => name)).toEqual([
      "Kick",
      "Snr",
    ]);
  });
});

describe("out and in again", () => {
  const back = async (
    rows: readonly ListRow[],
    ...how: [Parameters<typeof listToCsv>[1]?, (readonly ListBus[])?]
  ) => rowsOf(await open(listToCsv(rows, ...how)));

  it("the example's list in an empty setup builds its buses, with every send and further column", async () => {
    const example = exampleSetup();
    const [first, ...others] = example.channels;
    const noted = {
      ...example,
      channels: [{ ...(first as Channel), extra: [{ head: "Notes", value: "=1+1, taped" }] }, ...others],
    };
    const blank = { ...blankSetup(), kit: example.kit };
    const text = listToCsv(listOf(noted), csvStyle("de"), noted.buses.map(listBusOf));
    const table = await open(text);
    const read = readList(table, table.mapping, table.header, blank);
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    const after = withList(blank, read.lines, "add");
    expect(listOf(after)).toEqual(listOf(noted));
    expect(after.buses.map(listBusOf)).toEqual(noted.buses.map(listBusOf));
    // Over the setup it came from it changes nothing.
    expect(withList(noted, read.lines, "replace")).toEqual(noted);
  });

  it.each([
    ["x", { on: true }],
    ["post -6", { tap: "post-fader", level: -6 }],
    ["-6 dB pre L30 off", { tap: "pre-fader", level: -6, pan: -0.3, on: false }],
    ["−∞", { level: null }],
    ["no", { out: true }],
  ])("a send written as %s is read", async (cell, means) => {
    const table = await open(`Name;Stereo bus 5 & 6: Drums\nHat;${cell}\n`);
    const read = readList(table, table.mapping, table.header, exampleSetup());
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    const bus = { name: "Drums", numbers: [5, 6], stereo: true };
    expect(read.lines[0]?.says.sends).toEqual([{ bus, ...means }]);
  });

  it("a send that cannot be read is a fault with its row and column; what is too long too", async () => {
    const table = await open(`Name;Mono bus: Fold-back;Notes\nHat;loud;${"n".repeat(201)}\n`);
    const read = readList(table, table.mapping, table.header, exampleSetup());
    expect(!read.ok && read.why).toMatchObject([
      { row: 2, column: 2, problem: { code: "send", cell: "loud" } },
      { row: 2, column: 3, problem: { code: "long cell", head: "Notes", letters: 201, most: 200 } },
    ]);
  });

  it("columns without a head, or more than a channel keeps, are told", async () => {
    const heads = Array.from({ length: 14 }, (_, i) => `Extra ${i + 1}`);
    const table = await open(`Name,,${heads.join(",")}\nHat,lost,${heads.map(() => "a").join(",")}\n`);
    const read = readList(table, table.mapping, table.header, exampleSetup());
    if (!read.ok) throw new Error(read.why[0]?.problem.code);
    expect(read.lines[0]?.says.extra).toHaveLength(12);
    expect(read.notes.slice(1)).toEqual([
      { code: "not kept", heads: ["Extra 13", "Extra 14"], most: 12 },
      { code: "no header", letters: "B" },
    ]);
  });

  it("gives the example's very patch", async () => {
    const example = exampleSetup();
    const blank = { ...blankSetup(), kit: example.kit };
    const rows = await back(listOf(example));
    expect(rows).toEqual(listOf(example));
    expect(listOf(withList(blank, rows.map(wholeLine), "add"))).toEqual(listOf(example));
  });

  const feed = { input: 1, side: "both", tap: "pre-fader", on: true, trim: 0 } as const;
  const nasty = fc.constantFrom(
    "=1+1",
    "+A1",
    "-6",
    "-cmd",
    "@x",
    "'quoted",
    "''=",
    "a,b",
    'say "x"',
    "a;b|c\td",
    "Ünï",
    "=",
    "'",
  );
  const aName = fc
    .oneof(nasty, fc.string({ unit: "grapheme", minLength: 1, maxLength: 30 }))
    .map((n) => n.replace(/[\s\p{Cc}\uFEFF]+/gu, " ").trim())
    .filter((n) => n !== "");
  const aNumber = (min: number, max: number) =>
    fc.oneof(fc.integer({ min, max }), fc.double({ min, max, noNaN: true })).map((x) => (x === 0 ? 0 : x));

  it("gives the same list, whatever it is, with a point or a comma", async () => {
    const aRow = fc.record({
      name: aName,
      numbers: fc.uniqueArray(fc.integer({ min: 1, max: 999 }), { maxLength: 2 }),
      piece: fc.option(aName),
      gatedRms: fc.option(aNumber(-120, 24)),
      peak: fc.option(aNumber(-120, 24)),
      pan: fc.oneof(
        aNumber(-1, 1),
        fc.integer({ min: -100, max: 100 }).map((p) => (p === 0 ? 0 : p / 100)),
      ),
      trims: fc.array(aNumber(-60, 20), { maxLength: 3 }),
      ways: fc.array(
        fc.record({
          on: fc.boolean(),
          level: fc.option(aNumber(-120, 40)),
          tap: fc.constantFrom("pre-fader" as const, "post-fader" as const),
          pan: fc.option(aNumber(-1, 1)),
        }),
        { maxLength: 3 },
      ),
      extra: fc.uniqueArray(
        fc.record({ head: fc.constantFrom("Mic", "Stand", "48V", "=Notes", "-"), value: aName }),
        {
          selector: (column) => column.head,
        },
      ),
    });
    await fc.assert(
      fc.asyncProperty(
        anySetup(6, 14),
        fc.array(aRow, { minLength: 6, maxLength: 6 }),
        fc.constantFrom("en", "de"),
        async (s, more, language) => {
          const heads = extraHeads(more);
          const rows = listOf(s).map((row, i): ListRow => {
            const { trims, ways, ...rest } = more[i] as (typeof more)[number];
            const feeds = row.feeds.map((f, k) => ({ ...f, trim: trims[k] ?? f.trim }));
            const sends = row.sends.map((send, k) => ({ ...send, ...ways[k] }));
            const order = (column: { readonly head: string }) => heads.indexOf(column.head);
            return {
              ...row,
              ...rest,
              feeds,
              sends,
              extra: rest.extra.toSorted((a, b) => order(a) - order(b)),
            };
          });
          fc.pre(rows.length > 0);
          expect(await back(rows, csvStyle(language), s.buses.map(listBusOf))).toEqual(rows);
        },
      ),
      { numRuns: 300 },
    );
  });

  it("keeps negative numbers numbers, and makes every formula harmless", async () => {
    const [row] = listOf(exampleSetup());
    const text = await listToCsv([
      { ...(row as ListRow), name: "=HYPERLINK(1)", gatedRms: -6, feeds: [{ ...feed, trim: -3 }] },
    ]);
    expect(text.startsWith("\uFEFFCh,Name,")).toBe(true);
    expect(text.endsWith("\r\n")).toBe(true);
    expect(text).toContain(",-6,");
    expect(text).toContain(",'=HYPERLINK(1),");
    for (const cell of ["=1", "+A1", "-x", "@x", "\tx", "\rx", "\nx", "＝1"])
      expect(guard(cell)).toBe(`'${cell}`);
    expect(
      ["a;=1", "a,=1", "a\t+1", "a|-x", "a\n@x", 'a;"=1', "a; \u200b=1", "a =1", "\ufeff=1", "\u3164=1"].map(
        guard,
      ),
    ).toEqual([
      "a;'=1",
      "a,'=1",
      "a\t'+1",
      "a|'-x",
      "a\n'@x",
      "a;\"'=1",
      "a; \u200b'=1",
      "a '=1",
      "\ufeff'=1",
      "\u3164'=1",
    ]);
    for (const cell of ["Kick - in", "Keys + Vox", "Bass (DI)", "a=b", "R&B; soul", "’n’ roll"])
      expect(guard(cell)).toBe(cell);
    for (const cell of ["-6", "+4.5", "-1e-7", "-6,5", "Kick", ""]) expect(guard(cell)).toBe(cell);
    const pieces = fc.array(
      fc.constantFrom("=", "+", "'", '"', ";", ",", "\t", "|", "\n", " ", "\u200b", "a", "7"),
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          pieces.map((p) => p.join("")),
        ),
        (cell) => unguard(guard(cell)) === cell,
      ),
      { numRuns: 3000 },
    );
  });

  it("writes the patch sheet, one line for each input", async () => {
    const text = await sheetToCsv(exampleSetup(), sheetRows(exampleSetup()), csvStyle("de"));
    const lines = text.trim().split("\r\n");
    expect(lines).toHaveLength(17);
    expect(lines[1]).toBe('1;Drums L;"Bus 5, stereo bus";Out 1;;on;0;');
    expect(lines[11]).toBe('11;BV 2;"Ch 17, direct out";Out 11;pre-fader;off;0;');
    expect(lines[16]).toBe("16;;;;;;;");
  });

  it("has no number in the patch sheet that a spreadsheet takes for a word", () => {
    const setup = exampleSetup();
    const lowered: Setup = {
      ...setup,
      channels: setup.channels.map((c) => ({ ...c, directOut: { ...c.directOut, trim: -3.25 } })),
    };
    const text = sheetToCsv(lowered, sheetRows(lowered), csvStyle("de"));
    expect(text).toContain('"-3,25"');
    // What is rounded for a reader has a true minus.
    expect(text).not.toMatch(/−\d/);
  });

  it("speaks each language's numbers", () => {
    expect(csvStyle("en-GB")).toEqual({ delimiter: ",", decimal: "." });
    expect(csvStyle("de-AT")).toEqual({ delimiter: ";", decimal: "," });
  });
});

describe("bad files", () => {
  it.each([
    ["", { code: "empty" }],
    [" \n \n", { code: "blank" }],
    ["PK\u0003\u0004rest", { code: "workbook" }],
    [Uint8Array.from({ length: 3000 }, (_, i) => 1 + (i % 7)), { code: "no text" }],
    ['Name,Pan\nKick,C\n"Hat,R30\nTom,L20\n', { code: "open quote", row: 3 }],
    [`Name\n${"Kick\n".repeat(513)}`, { code: "many rows", rows: 514, most: 512 }],
    ["a\n".repeat(100_000), { code: "many rows", rows: 100_000, most: 512 }],
    [
      `Name,Pan,Level\n${"Kick drum inside,L30,-20\n".repeat(100_000)}`,
      { code: "large", bytes: 2_500_015, most: 1_000_000, rows: 512 },
    ],
    [",".repeat(500), { code: "many columns", row: 1, most: 64, delimiter: "comma" }],
    [`Name\n"${"x".repeat(1001)}"\n`, { code: "long cell", row: 2, most: 1000 }],
    [";;\n;;\n", { code: "blank" }],
    ['Name,Pan\n"Hat"x,C\n', { code: "behind quote", row: 2 }],
    [`Name${",x".repeat(400)}\n`, { code: "many columns", row: 1, most: 64, delimiter: "comma" }],
  ])("%#: %.20s", async (content, why) => {
    expect(await refusal(content)).toEqual(why);
  });

  it("of 512 channels is taken, of a name too long is not", async () => {
    expect(await names(`Name\n${"Kick\n".repeat(512)}`)).toHaveLength(512);
    expect((await faultsOf(`Name\n${"x".repeat(81)}\n`))[0]?.problem).toMatchObject({
      code: "long name",
      letters: 81,
      most: 80,
    });
  });

  it("of any bytes are read or refused, never thrown", async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), async (bytes) => {
        const opened = await openCsv(new Blob([Uint8Array.from(bytes)]));
        if (!opened.ok) {
          expect(describeCsvRefusal(opened.why)).toMatch(/\.$/);
          return;
        }
        const read = readList(opened.table, opened.table.mapping, opened.table.header, blankSetup());
        if (!read.ok)
          for (const fault of read.why)
            expect(describeCellProblem(fault.problem)).not.toMatch(/undefined|NaN/);
      }),
      { numRuns: 500 },
    );
  });

  describe("of a megabyte of anything are read or refused", () => {
    const megabyte = (piece: string): string => piece.repeat(Math.floor(CSV_LIMITS.bytes / piece.length));
    it.each([
      "a\n",
      "\n",
      ",",
      '"',
      '"a"b',
      '"a"b,',
      "a,",
      '"a""',
      "\0a",
      "é",
      "''",
      '"\n',
      "ab,cd\n",
      ";,|\t",
    ])("1 MB of %j", async (piece) => {
      const opened = await openCsv(new Blob([megabyte(piece)]));
      if (!opened.ok) {
        expect(describeCsvRefusal(opened.why)).toMatch(/\.$/);
        return;
      }
      const read = readList(opened.table, opened.table.mapping, opened.table.header, blankSetup());
      if (!read.ok) for (const fault of read.why) expect(describeCellProblem(fault.problem)).toMatch(/\.$/);
    });
  });
});
