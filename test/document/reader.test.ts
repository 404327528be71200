import { describe, expect, it } from "vitest";
import { LAWS } from "../../src/core/pan/laws";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
import { printSetup, readSetup } from "../../src/document/read-setup";
import { measured } from "./measured";

/** As a note lists them. */
const EVERY_LAW = Object.keys(LAWS)
  .map((law) => `“${law}”`)
  .join(", ");

/** Parsed JSON, as loose as it comes. */
type Json = ReturnType<typeof JSON.parse>;

/** What is said of the example after a change to it, and how it was read. */
const withChange = (change: (file: Json) => void) => {
  const json = JSON.parse(printSetup(exampleSetup()));
  change(json);
  const result = readSetup(json);
  if (!result.ok) throw new Error(result.why);
  return result;
};
const notesOf = (change: (file: Json) => void): readonly string[] => withChange(change).notes;

describe("what cannot be taken is named with its value and what is allowed", () => {
  it.each<[about: string, change: (file: Json) => void, notes: readonly string[]]>([
    [
      "a text",
      (f) => {
        f.channels[0].name = 5;
      },
      ["channels[0].name: 5 is not text; “Channel” used."],
    ],
    [
      "a list",
      (f) => {
        f.buses[0].sends = true;
      },
      ["buses[0].sends: true is not a list; an empty list used."],
    ],
    [
      "a whole number: a text is none at all",
      (f) => {
        f.desk.panSteps = "many";
      },
      ["desk.panSteps: “many” is not a number from 1 to 1000; 100 used."],
    ],
    [
      "left and right",
      (f) => {
        f.buses[0].sideTrim = 5;
      },
      ["buses[0].sideTrim[0]: missing; 0 used.", "buses[0].sideTrim[1]: missing; 0 used."],
    ],
    [
      "what may be empty, once",
      (f) => {
        delete f.channels[0].piece;
        delete f.earphone;
      },
      ["channels[0].piece: missing; left empty.", "earphone: missing; left empty."],
    ],
    [
      "ticks that are none",
      (f) => {
        f.lineCheck = 5;
      },
      ["lineCheck: 5 is not an object; none used."],
    ],
    [
      "ticks that are missing",
      (f) => {
        delete f.lineCheck;
      },
      ["lineCheck: missing; none used."],
    ],
    [
      "a text of 24 characters whole, a longer one cut",
      (f) => {
        f.desk.law = "a".repeat(24);
        f.desk.reference = "b".repeat(25);
      },
      [
        `desk.law: “${"a".repeat(24)}” is not one of ${EVERY_LAW}; “sine” used.`,
        `desk.reference: “${"b".repeat(24)}…” is not one of “sides”, “centre”; “sides” used.`,
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
        "“two words”: not known here; left out.",
        `${"a".repeat(24)}: not known here; left out.`,
        `“${"b".repeat(24)}…”: not known here; left out.`,
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
    notes: ["note: 2001 characters are too many; the first 2000 kept."],
  });
});

it("a recording whose correlations lack one in a row is left out", () => {
  const recording = (correlation: readonly (readonly number[])[]) =>
    withChange((f) => {
      f.recording = { name: "Hall", seconds: 9, channels: [measured("s1"), measured("s2")], correlation };
    });
  expect(recording([[1, 0], [0]])).toMatchObject({
    file: { recording: null },
    notes: ["recording.correlation: not 2 rows of 2; the recording is left out."],
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
    expect(wrong(100).at(-1)).toBe("channels[99].pan: 9 is not a number from −1 to 1; 0 used.");
    expect(wrong(101)).toHaveLength(101);
    expect(wrong(101).at(-1)).toBe("And 1 more of the kind.");
  });
});

it("a fault of the app itself is not called one of the file", () => {
  const broken = {
    get format(): string {
      throw new RangeError("own");
    },
  };
  expect(readSetup(broken)).toEqual({ ok: false, why: "Hatside cannot read this setup: own." });
});
