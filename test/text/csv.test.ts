import { expect, it } from "vitest";
import {
  type CellProblem,
  type CsvNote,
  type CsvRefusal,
  describeCellProblem,
  describeCsvNote,
  describeCsvRefusal,
} from "../../src/text/csv";
import { heldSentences, type OfEach } from "./of-each";

const cell = "anvil";
const RULE = { name: "Gated RMS", min: -120, max: 24, unit: "dBFS" };

const CELLS: OfEach<CellProblem> = {
  "not yes": [{ code: "not yes", title: "Stereo", cell, allowed: ["stereo", "mono"] }],
  "part of a number": [{ code: "part of a number", cell: "-", rule: RULE }],
  "part of a pan": [{ code: "part of a pan", cell: "L", notation: { panStyle: "steps", panSteps: 100 } }],
  typed: [{ code: "typed", fault: { code: "outside steps", typed: "L300", of: 100, unit: "" } }],
  kind: [{ code: "kind", cell, allowed: ["audience mic", "bass"] }],
  tap: [{ code: "tap", cell }],
  "no input": [{ code: "no input", cell, most: 192 }],
  "far input": [{ code: "far input", input: 0, most: 192 }],
  "side of mono": [{ code: "side of mono", cell: "3L", most: 192 }],
  "input taken": [{ code: "input taken", input: 3, row: 2 }],
  "no names": [
    { code: "no names", rows: 1 },
    { code: "no names", rows: 2 },
  ],
  "long name": [{ code: "long name", cell, letters: 81, most: 80 }],
  "long cell": [{ code: "long cell", head: "Notes", cell, letters: 201, most: 200 }],
  "many numbers": [{ code: "many numbers", cell: "5-9", count: 5 }],
  "many values": [{ code: "many values", title: "Trim dB", values: 2, inputs: 1 }],
  send: [{ code: "send", cell: "loud" }],
  "no rows": [{ code: "no rows" }],
  "no name column": [{ code: "no name column" }],
};

const names = (count: number): string[] => Array.from({ length: count }, (_, at) => `Extra ${at + 1}`);

const NOTES: OfEach<CsvNote> = {
  "windows-1252": [{ code: "windows-1252" }],
  nul: [{ code: "nul" }],
  "above the headers": [
    { code: "above the headers", cells: ["Hall band, Thursday", "Doors 7 pm", "two sets"] },
  ],
  "one column": [{ code: "one column" }],
  "no such piece": [{ code: "no such piece", row: 3, piece: "Gong" }],
  joined: [{ code: "joined", names: ["Keys"] }],
  "no column of inputs": [{ code: "no column of inputs" }],
  kept: [
    { code: "kept", heads: names(9) },
    { code: "kept", heads: names(10) },
  ],
  "not kept": [{ code: "not kept", heads: names(2), most: 12 }],
  "no header": [{ code: "no header", letters: "B" }],
  "left out": [
    { code: "left out", cells: ["DRUMS"] },
    { code: "left out", cells: ["DRUMS", "2"] },
  ],
  nameless: [
    { code: "nameless", rows: [{ row: 8, cells: ["4", "spare line"] }] },
    {
      code: "nameless",
      rows: [
        { row: 5, cells: ["2", "dynamic", "tall", "clip"] },
        { row: 8, cells: ["4", "spare line"] },
      ],
    },
  ],
  "no channel number": [{ code: "no channel number", cells: ["FX 1", "0", "1000"], min: 1, max: 999 }],
};

const REFUSALS: OfEach<CsvRefusal> = {
  blank: [{ code: "blank" }],
  empty: [{ code: "empty" }],
  workbook: [{ code: "workbook" }],
  "no text": [{ code: "no text" }],
  large: [{ code: "large", bytes: 2_500_000, most: 1_000_000, rows: 512 }],
  "many rows": [{ code: "many rows", rows: 100_000, most: 512 }],
  "open quote": [{ code: "open quote", row: 3 }],
  "behind quote": [{ code: "behind quote", row: 2 }],
  "long cell": [{ code: "long cell", row: 2, most: 1000 }],
  "many columns": [{ code: "many columns", row: 1, most: 64, delimiter: "comma" }],
};

it("the wording of what is wrong with a cell is held", () => {
  expect(heldSentences(Object.values(CELLS).flat().map(describeCellProblem))).toMatchSnapshot();
});

it("the wording of what is to be known of a list is held", () => {
  expect(heldSentences(Object.values(NOTES).flat().map(describeCsvNote))).toMatchSnapshot();
});

it("the wording of why a file is no list is held", () => {
  expect(heldSentences(Object.values(REFUSALS).flat().map(describeCsvRefusal))).toMatchSnapshot();
});
