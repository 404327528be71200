import { describe, expect, it } from "vitest";
import { LAWS } from "../../src/core/pan/laws";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
import { printSetup, readSetup } from "../../src/document/read-setup";
import type { ReadNote } from "../../src/text/reading";
import { measured } from "./measured";

/** What a law may be. */
const EVERY_LAW = Object.keys(LAWS);

/** Parsed JSON, as loose as it comes. */
type Json = ReturnType<typeof JSON.parse>;

/** What is said of the example after a change to it, and how it was read. */
const withChange = (change: (file: Json) => void) => {
  const json = JSON.parse(printSetup(exampleSetup()));
  change(json);
  const result = readSetup(json);
  if (!result.ok) throw new Error(result.why.code);
  return result;
};
const notesOf = (change: (file: Json) => void): readonly ReadNote[] => withChange(change).notes;

describe("what cannot be taken is named with its value and what is allowed", () => {
  it.each<[about: string, change: (file: Json) => void, notes: readonly ReadNote[]]>([
    [
      "a text",
      (f) => {
        f.channels[0].name = 5;
      },
      [{ code: "replaced", at: "channels[0].name", given: 5, allowed: "text", used: "Channel" }],
    ],
    [
      "a list",
      (f) => {
        f.buses[0].sends = true;
      },
      [{ code: "replaced", at: "buses[0].sends", given: true, allowed: "list", used: { a: "empty list" } }],
    ],
    [
      "a whole number: a text is none at all",
      (f) => {
        f.desk.panSteps = "many";
      },
      [{ code: "replaced", at: "desk.panSteps", given: "many", allowed: { min: 1, max: 1000 }, used: 100 }],
    ],
    [
      "left and right",
      (f) => {
        f.buses[0].sideTrim = 5;
      },
      [
        expect.objectContaining({ code: "replaced", at: "buses[0].sideTrim[0]", given: undefined, used: 0 }),
        expect.objectContaining({ code: "replaced", at: "buses[0].sideTrim[1]", given: undefined, used: 0 }),
      ],
    ],
    [
      "what may be empty, once",
      (f) => {
        delete f.channels[0].piece;
        delete f.earphone;
      },
      [
        { code: "left empty", at: "channels[0].piece" },
        { code: "left empty", at: "earphone" },
      ],
    ],
    [
      "ticks that are none",
      (f) => {
        f.lineCheck = 5;
      },
      [{ code: "no ticks", at: "lineCheck", given: 5 }],
    ],
    [
      "ticks that are missing",
      (f) => {
        delete f.lineCheck;
      },
      [{ code: "no ticks", at: "lineCheck", given: undefined }],
    ],
    [
      "a text of 24 characters whole, of a longer one the beginning",
      (f) => {
        f.desk.law = "a".repeat(24);
        f.desk.reference = "b".repeat(25);
      },
      [
        { code: "replaced", at: "desk.law", given: "a".repeat(24), allowed: EVERY_LAW, used: "sine" },
        {
          code: "replaced",
          at: "desk.reference",
          given: "b".repeat(25),
          allowed: ["sides", "centre"],
          used: "sides",
        },
      ],
    ],
    [
      "fields that are not known: in quotes where they are no plain word",
      (f) => {
        f["two words"] = 1;
        f["a".repeat(24)] = 1;
        f["b".repeat(25)] = 1;
      },
      [
        { code: "unknown", at: "“two words”" },
        { code: "unknown", at: "a".repeat(24) },
        { code: "unknown", at: `“${"b".repeat(24)}…”` },
      ],
    ],
  ])("%s", (_, change, notes) => {
    expect(notesOf(change)).toEqual(notes);
  });

  it("and what is taken instead is empty, not half of it", () => {
    const { file } = withChange((f) => {
      f.lineCheck = 5;
      f.buses[0].sends = true;
      delete f.channels[0].piece;
    });
    expect([file.lineCheck, file.buses[0]?.sends, file.channels[0]?.piece]).toEqual([{}, [], null]);
  });
});

it("a text is counted and cut by characters, as the field it is typed in counts them", () => {
  const read = (note: string) =>
    withChange((f) => {
      f.note = note;
    });
  const full = "🥁".repeat(LIMITS.note);
  expect(read(full)).toMatchObject({ file: { note: full }, notes: [] });
  expect(read(`${full}x`)).toMatchObject({
    file: { note: full },
    notes: [{ code: "too long", at: "note", letters: 2001, kept: 2000 }],
  });
});

it("a recording whose correlations lack one in a row is left out", () => {
  const recording = (correlation: readonly (readonly number[])[]) =>
    withChange((f) => {
      f.recording = { name: "Hall", seconds: 9, channels: [measured("s1"), measured("s2")], correlation };
    });
  expect(recording([[1, 0], [0]])).toMatchObject({
    file: { recording: null },
    notes: [{ code: "not square", at: "recording.correlation", size: 2 }],
  });
  expect(
    recording([
      [1, 0],
      [0, 1],
    ]).notes,
  ).toEqual([]);
});

describe("of many notes", () => {
  const wrong = (count: number) =>
    notesOf((f) => {
      f.buses = [];
      f.listeners.forEach((l: Json) => {
        l.bus = null;
      });
      f.monitor.inputs = f.monitor.inputs.map(() => null);
      f.channels = Array.from({ length: count }, (_, at) => ({ ...f.channels[0], id: `x${at}`, pan: 9 }));
    });

  it("a hundred are told, and how many more there are", () => {
    expect(wrong(99)).toHaveLength(99);
    expect(wrong(100)).toHaveLength(100);
    expect(wrong(100).at(-1)).toEqual({
      code: "replaced",
      at: "channels[99].pan",
      given: 9,
      allowed: { min: -1, max: 1 },
      used: 0,
    });
    expect(wrong(101)).toHaveLength(101);
    expect(wrong(101).at(-1)).toEqual({ code: "more", count: 1 });
  });
});

it("a fault of the app itself is not called one of the file", () => {
  const broken = {
    get format(): string {
      throw new RangeError("own");
    },
  };
  expect(readSetup(broken)).toEqual({ ok: false, why: { code: "own fault", what: "setup", reason: "own" } });
});
