import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Desk } from "../../src/core/model/setup";
import { BLANK_DESK, blankSetup } from "../../src/document/blank";
import { compareDesks, deskSettings } from "../../src/document/compare";
import {
  DESK_FORMAT,
  deskFile,
  deskOf,
  isDesk,
  printDesk,
  readDesk,
  readDeskText,
  readThing,
} from "../../src/document/desk-file";
import { exampleSetup } from "../../src/document/example";
import { RANGES } from "../../src/document/limits";
import { MIGRATIONS } from "../../src/document/migrate";
import { FORMAT, VERSION } from "../../src/document/schema";
import { describeComparison, describeDeskSetting } from "../../src/text/compare";
import type { ReadNote, ReadRefusal } from "../../src/text/reading";
import { within } from "./any";

const HALL: Desk = {
  ...BLANK_DESK,
  name: "Hall desk",
  channelCount: 32,
  law: "custom",
  centreDb: 4.5,
  portName: "Stage box",
  firstPort: 9,
  muteRule: { preFaderSends: true, directOuts: ["pre-fader", "post-fader"] },
};

const withoutHead = ({
  format: _format,
  version: _version,
  ...desk
}: {
  readonly [field: string]: unknown;
}) => desk;
const why = (value: unknown): ReadRefusal | "read" => {
  const read = readDesk(value);
  return read.ok ? "read" : read.why;
};
const notesOf = (more: object): readonly ReadNote[] => {
  const read = readDesk({ ...deskFile(HALL), ...more });
  if (!read.ok) throw new Error(read.why.code);
  return read.notes;
};

describe("a desk by itself", () => {
  it("is read back as it was, to the last digit and whatever it is called", () => {
    const any = fc.record({
      name: fc.string({ unit: "binary", maxLength: 40 }),
      portName: fc.string({ unit: "grapheme", maxLength: 40 }),
      centreDb: within(RANGES.centre),
      trimStep: within(RANGES.levelStep),
      outputDbu: within(RANGES.output),
    });
    fc.assert(
      fc.property(any, (over) => {
        const desk = { ...HALL, ...over };
        const read = readDeskText(printDesk(desk));
        expect(read).toEqual({ ok: true, file: deskFile(desk), notes: [] });
        expect(read.ok && deskOf(read.file)).toEqual(desk);
      }),
      { numRuns: 40 },
    );
  });

  it("as this version wrote it is read for good, every field of it", () => {
    const text = readFileSync(join(import.meta.dirname, "../fixtures/desk-v3.json"), "utf8");
    const read = readDeskText(text);
    if (!read.ok) throw new Error(read.why.code);
    expect(read.notes).toEqual([]);
    expect(deskOf(read.file)).toMatchObject(withoutHead(JSON.parse(text)));
    // No field of it has the value that a new desk has, so none of them was a default.
    const alike = Object.entries(BLANK_DESK).filter(([key, value]) => read.file[key as keyof Desk] === value);
    expect(alike).toEqual([]);
  });

  it("is told from a setup by its format, and neither is read as the other", () => {
    const desk = readThing(deskFile(HALL));
    const setup = readThing(exampleSetup());
    expect([desk.ok && isDesk(desk.file), setup.ok && isDesk(setup.file)]).toEqual([true, false]);
    expect(why(exampleSetup())).toEqual({
      code: "other format",
      what: "desk",
      given: "hatside-setup",
      format: "hatside-desk",
    });
    expect(readThing({ a: 1 })).toMatchObject({
      ok: false,
      why: { code: "other format", what: "setup", given: undefined, format: FORMAT },
    });
  });

  /** The versions that are read: the first desks that could be saved were of version 3. */
  const READ = { oldest: 3, newest: VERSION };

  it("of a newer version, of one before there were any, or of none is refused with what is allowed", () => {
    expect(why({ ...deskFile(HALL), version: VERSION + 1 })).toEqual({
      code: "newer",
      what: "desk",
      version: VERSION + 1,
      newest: VERSION,
    });
    expect(why({ ...deskFile(HALL), version: 2 })).toEqual({ code: "no version", given: 2, ...READ });
    expect(why({ format: DESK_FORMAT })).toEqual({ code: "no version", given: undefined, ...READ });
    expect(why([])).toEqual({ code: "not ours", what: "desk", given: { a: "empty list" } });
    expect(readDeskText("{ half")).toMatchObject({
      ok: false,
      why: { code: "not JSON", what: "desk" },
    });
  });

  it("says what was not understood and takes a default, never the nearest that is allowed", () => {
    expect(notesOf({ channelCount: 9999 })).toEqual([
      { code: "replaced", at: "channelCount", given: 9999, allowed: { min: 1, max: 512 }, used: 48 },
    ]);
    expect(notesOf({ law: "loud", colour: "red" })).toEqual([
      { code: "unknown", at: "colour" },
      expect.objectContaining({ code: "replaced", at: "law", given: "loud", used: "sine" }),
    ]);
    expect(notesOf({ name: "x".repeat(2001) })).toEqual([
      { code: "too long", at: "name", letters: 2001, kept: 2000 },
    ]);
    expect(notesOf({ muteRule: null })).toEqual([{ code: "no object", at: "muteRule", given: null }]);
    const read = readDesk(JSON.parse('{"format":"hatside-desk","version":3,"__proto__":{"name":"taken"}}'));
    expect(read.ok && read.file.name).toBe("");
  });

  it("of an earlier version is brought up as the desk of a setup of that version", () => {
    const next = [
      ...MIGRATIONS,
      ({ desk, ...rest }: { readonly [field: string]: unknown }) => ({
        ...rest,
        desk: { ...(desk as Desk), busOverloads: true },
      }),
    ];
    const read = readDesk(deskFile(HALL), next);
    expect(read).toMatchObject({ ok: true, notes: [], file: { name: "Hall desk", busOverloads: true } });
  });
});

describe("what is said of desks", () => {
  it("names every setting in which two differ, and nothing else", () => {
    expect(compareDesks(HALL, HALL).differences).toEqual([]);
    const club = compareDesks(BLANK_DESK, { ...BLANK_DESK, name: "Club", firstPort: 9, levelStep: 0.5 });
    expect(club.differences).toMatchObject([
      { field: "name", was: "", is: "Club" },
      { field: "port", was: ["Out", 1], is: ["Out", 9] },
      { field: "levelStep", was: 0.1, is: 0.5 },
    ]);
    expect(describeComparison(club)).toEqual([
      "Name Club instead of none",
      "First output port “Out 9” instead of “Out 1”",
      "Level step 0.5 dB instead of 0.1 dB",
    ]);
  });

  it("says every setting of one, the name apart", () => {
    const settings = deskSettings(HALL);
    expect(settings).toContainEqual({ field: "mutesSends", value: true });
    expect(settings.map(({ field }) => field)).not.toContain("name");
    const says = settings.map((setting) => describeDeskSetting(setting, blankSetup()));
    expect(says).toContain("Channels 32");
    expect(says).toContain("First output port “Stage box 9”");
    expect(says).toContain("Mute also mutes pre-fader sends");
    expect(says.filter((line) => line.includes("Hall desk"))).toEqual([]);
    // A field of the desk that is compared is also shown.
    expect(says).toHaveLength(new Set(says).size);
  });
});
