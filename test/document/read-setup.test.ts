import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { LAWS } from "../../src/core/pan/laws";
import { editEarphone } from "../../src/document/commands/settings";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
import { mend } from "../../src/document/mend";
import { printSetup, readSetup, readSetupText } from "../../src/document/read-setup";
import { VERSION } from "../../src/document/schema";
import { applied } from "./commands";

/** As a note lists them. */
const EVERY_LAW = Object.keys(LAWS)
  .map((law) => `“${law}”`)
  .join(", ");

/** Parsed JSON, as loose as it comes. */
type Json = ReturnType<typeof JSON.parse>;

const fixture = (version: number): string =>
  readFileSync(new URL(`../fixtures/setup-v${version}.json`, import.meta.url), "utf8");
const frozen = fixture(VERSION);
const example = (): Json => JSON.parse(printSetup(exampleSetup()));

const read = (value: unknown) => {
  const result = readSetup(value);
  if (!result.ok) throw new Error(result.why);
  return result;
};

const refused = (value: unknown): string => {
  const result = readSetup(value);
  return result.ok ? "" : result.why;
};

/** Reads the example with one field changed. */
const withChange = (change: (file: Json) => void) => {
  const file = example();
  change(file);
  return read(file);
};

const set = (file: object, key: string, value: unknown) =>
  Object.defineProperty(file, key, { value, enumerable: true, configurable: true, writable: true });

describe("a setup file", () => {
  it("as it was shipped is read whole", () => {
    const result = readSetupText(frozen);
    expect(result).toMatchObject({ ok: true, notes: [] });
    if (!result.ok) return;
    expect(JSON.parse(printSetup(result.file))).toEqual(JSON.parse(frozen));
    expect(result.file.recording?.channels[1]?.peak).toBe(Number.NEGATIVE_INFINITY);
    expect(result.file.buses[1]?.sends).toEqual([
      { channel: "s14", on: true, level: null, tap: "post-fader" as const, pan: null },
    ]);
    expect(result.file.lineCheck).toEqual({ 0: true, 3: false });
  });

  it("of version 1 is the same, and a recommendation may take free inputs as it did", () => {
    const result = readSetupText(fixture(1));
    expect(result).toMatchObject({ ok: true, notes: [] });
    const second = readSetupText(fixture(2));
    if (!result.ok || !second.ok) throw new Error("a fixture is not read");
    expect(JSON.parse(printSetup(result.file))).toEqual({
      ...JSON.parse(printSetup(second.file)),
      preferences: { ...result.file.preferences, inputsFixed: false },
    });
  });

  it("is refused when it is something else", () => {
    expect(readSetupText("{ not json")).toMatchObject({
      ok: false,
      why: expect.stringContaining("not JSON"),
    });
    expect(readSetupText(frozen.slice(0, 5000))).toMatchObject({ ok: false });
    expect(readSetupText("[".repeat(200_000))).toMatchObject({ ok: false });
    expect(refused(null)).toBe("This is not a setup of Hatside: it is nothing.");
    expect(refused([])).toBe("This is not a setup of Hatside: it is an empty list.");
    expect(refused("hat")).toBe("This is not a setup of Hatside: it is “hat”.");
    expect(refused({ format: "drawing", version: 1 })).toBe(
      "This is not a setup of Hatside: its format is “drawing”. Allowed: “hatside-setup”.",
    );
    expect(refused({ version: 1 })).toContain("its format is missing");
  });

  it("is refused when it is newer, with what to do", () => {
    expect(refused({ ...example(), version: VERSION + 1 })).toBe(
      `This setup is from a newer Hatside (its version is ${VERSION + 1}, this app reads up to ${VERSION}). Update the app, then open it again.`,
    );
    for (const version of [0, -1, 1.5, "1", null, undefined])
      expect(refused({ ...example(), version })).toMatch(
        new RegExp(`^version: .* is not a version\\. Allowed: 1 to ${VERSION}\\.$`),
      );
  });

  it("with nothing in it gets every default, each named", () => {
    const { file, notes } = read({ format: "hatside-setup", version: VERSION });
    expect(mend(file)).toBe(file);
    expect(evaluate(file)).toBeTruthy();
    expect(notes).toContain("name: missing; “Unnamed setup” used.");
    expect(notes).toContain("desk: missing; defaults used.");
    expect(notes).toContain("channels: missing; an empty list used.");
    expect(notes).toContain("There was no drummer among the listeners: added.");
    expect(file.monitor.inputs).toHaveLength(16);
  });

  it("takes the earphones that an estimate begins with where a field of them is missing", () => {
    const { file } = withChange((f) => set(f, "earphone", { isolation: 30 }));
    expect(file.earphone).toEqual({ ...applied(exampleSetup(), editEarphone({})).earphone, isolation: 30 });
  });

  it("puts a listener without a place at the throne", () => {
    const { file, notes } = withChange((f) => delete f.listeners[2].y);
    expect([file.listeners[2]?.y, notes]).toEqual([0, ["listeners[2].y: missing; 0 used."]]);
  });

  it("names a missing, a foreign and a wrong field by its path and value, and keeps the rest", () => {
    const { file, notes } = withChange((f) => {
      delete f.desk.panSteps;
      set(f, "colour", "blue");
      set(f.channels[2], "muted", "yes");
      set(f.buses[0].sends[1], "level", "loud");
      set(f.desk, "law", "mine");
      set(f.listeners[1], "facing", { a: 1 });
      set(f.kit, "yaw", [1]);
    });
    expect(notes).toEqual([
      "colour: not known here; left out.",
      "kit.yaw: a list is not a number from −180 to 180; 0 used.",
      `desk.law: “mine” is not one of ${EVERY_LAW}; “sine” used.`,
      "desk.panSteps: missing; 100 used.",
      "channels[2].muted: “yes” is not true or false; false used.",
      "buses[0].sends[1].level: “loud” is not a number from −120 to 40; 0 used.",
      "listeners[1].facing: an object is not a number from −180 to 180; 0 used.",
    ]);
    expect(file.channels).toEqual(exampleSetup().channels);
    expect(file).not.toHaveProperty("colour");
  });

  it("names numbers out of range, never clamps them", () => {
    const { file, notes } = withChange((f) => {
      set(f.channels[0], "pan", 1.5);
      set(f.channels[1], "pan", Number.NaN);
      set(f.channels[2], "gatedRms", Number.POSITIVE_INFINITY);
      set(f.monitor, "inputCount", 12.5);
      set(f.buses[0], "sideTrim", [-61]);
    });
    expect(notes).toEqual([
      "channels[0].pan: 1.5 is not a number from −1 to 1; 0 used.",
      "channels[1].pan: NaN is not a number from −1 to 1; 0 used.",
      "channels[2].gatedRms: Infinity is not a number from −120 to 24; nothing used.",
      "buses[0].sideTrim[0]: −61 is not a number from −60 to 20; 0 used.",
      "buses[0].sideTrim[1]: missing; 0 used.",
      "monitor.inputCount: 12.5 is not a whole number; 16 used.",
    ]);
    expect([file.channels[0]?.pan, file.channels[1]?.pan, file.channels[2]?.gatedRms]).toEqual([0, 0, null]);
    const huge = readSetupText(printSetup(exampleSetup()).replace('"yaw": 0', '"yaw": 1e999'));
    expect(huge).toMatchObject({
      ok: true,
      notes: ["kit.yaw: Infinity is not a number from −180 to 180; 0 used."],
    });
  });

  it("takes the ends of a range and nothing beyond", () => {
    const panNotes = (pan: number) => withChange((f) => set(f.channels[0], "pan", pan)).notes.length;
    expect([-1, 1, -1 - Number.EPSILON, 1 + Number.EPSILON].map(panNotes)).toEqual([0, 0, 1, 1]);
  });

  it("is refused when a part of it would be lost, the limit named", () => {
    const file = example();
    const many = Array.from({ length: 10_000 }, (_, at) => ({ ...file.channels[0], id: `x${at}` }));
    expect(refused({ ...file, channels: many })).toBe(
      "“channels” holds 10000: too many. Allowed: up to 512.",
    );
    expect(refused({ ...file, channels: many.slice(0, LIMITS.channels + 1) })).toContain("513");
    expect(read({ ...file, channels: many.slice(0, LIMITS.channels) }).file.channels).toHaveLength(512);
    const inputs = Array(LIMITS.inputs + 1).fill(null);
    expect(refused({ ...file, monitor: { ...file.monitor, inputs } })).toContain(
      "“monitor.inputs” holds 193: too many",
    );
  });

  it("mends references that name nothing, each with a word", () => {
    const { file, notes } = withChange((f) => {
      set(f.channels[0], "piece", "p99");
      set(f.channels[1], "id", "s1");
      set(f.listeners[2], "bus", "m7");
      set(f.listeners[3], "kind", "drummer");
      set(f.monitor.inputs[2].feed, "channel", "s99");
      set(f.preferences, "first", "l99");
      set(f, "check", { listener: "l99", hits: [] });
      set(f, "lineCheck", { 15: true, elsewhere: false, 0: true });
    });
    expect(mend(file)).toBe(file);
    expect(notes).toEqual([
      "“Snare” had no id of its own and got one.",
      "“Lene, keys” was a second drummer and is a performer now.",
      "“Tobi, lead vox” heard a bus that is not there and hears none now.",
      "“Kick” was at a kit piece that is not there and is at none now.",
      "“Drums” had a send of a channel that is not there or twice: removed.",
      "Input 3 had a feed that is not there: it is free now.",
      "The listener who matters most is not there: it is the drummer now.",
      "The check at the kit was for a listener who is not there: ended.",
      "The line check had ticks of free inputs or of nobody’s mixer: removed.",
    ]);
    expect(file.channels[1]?.id).toMatch(/^s\d+$/);
    expect(file.lineCheck).toEqual({ 0: true });
  });

  it("takes each channel into a bus once", () => {
    const { file, notes } = withChange((f) =>
      f.buses[0].sends.push({ channel: "s1", on: true, level: 3, tap: "post-fader" as const, pan: null }),
    );
    expect(file.buses).toEqual(exampleSetup().buses);
    expect(notes).toHaveLength(1);
  });

  it("adds an audience and a drummer where there are none", () => {
    const { file, notes } = withChange((f) => set(f, "listeners", []));
    expect(file.listeners.map((l) => [l.id, l.kind])).toEqual([
      ["l1", "audience"],
      ["l2", "drummer"],
    ]);
    expect(notes).toContain("There was no audience among the listeners: added.");
  });

  it("makes no more listeners than a setup holds", () => {
    const crowd = (kinds: readonly string[]) =>
      withChange((f) =>
        set(
          f,
          "listeners",
          Array.from({ length: LIMITS.listeners }, (_, at) => ({
            ...f.listeners[2],
            id: `l${at + 1}`,
            name: `Singer ${at + 1}`,
            kind: kinds[at] ?? "performer",
          })),
        ),
      );
    const { file, notes } = crowd([]);
    expect(file.listeners).toHaveLength(LIMITS.listeners);
    expect(file.listeners.slice(-2).map((l) => [l.name, l.kind])).toEqual([
      ["Singer 31", "drummer"],
      ["Singer 32", "audience"],
    ]);
    expect(notes[0]).toBe(
      "There was no audience among the listeners, and no room for one more: it is “Singer 32” now.",
    );
    expect(readSetup(JSON.parse(JSON.stringify(file)))).toEqual({ ok: true, file, notes: [] });
    const onlookers = crowd(Array(LIMITS.listeners).fill("audience")).file.listeners;
    expect(onlookers.map((l) => l.kind)).toEqual([
      ...Array(LIMITS.listeners - 1).fill("audience"),
      "drummer",
    ]);
  });

  it("keeps the beginning of a text that would hold up the page, and never half a character", () => {
    const long = `${"x".repeat(LIMITS.note - 1)}🥁🥁`;
    const { file, notes } = withChange((f) => {
      set(f.channels[0], "name", long);
      set(f, "note", "n".repeat(LIMITS.note));
    });
    expect(file.channels[0]?.name).toBe(`${"x".repeat(LIMITS.note - 1)}🥁`);
    expect(file.note).toHaveLength(LIMITS.note);
    expect(notes).toEqual(["channels[0].name: 2001 characters are too many; the first 2000 kept."]);
  });

  it("names fields and things in its words by no more than a few quoted letters", () => {
    const evil = `<img src=x>${"y".repeat(5000)}`;
    const { notes } = withChange((f) => {
      f[evil] = 1;
      set(f, "lineCheck", { [evil]: 3 });
      set(f.channels[0], "name", "z".repeat(1000));
      set(f.channels[0], "piece", "p99");
    });
    expect(notes).toEqual([
      "“<img src=x>yyyyyyyyyyyyy…”: not known here; left out.",
      "lineCheck.“<img src=x>yyyyyyyyyyyyy…”: 3 is not true or false; false used.",
      `“${"z".repeat(24)}…” was at a kit piece that is not there and is at none now.`,
      "The line check had ticks of free inputs or of nobody’s mixer: removed.",
    ]);
  });

  it("leaves a recording out whose correlations do not fit, rather than guess", () => {
    const file = JSON.parse(frozen);
    file.recording.correlation.pop();
    const { file: got, notes } = read(file);
    expect(got.recording).toBeNull();
    expect(notes).toEqual(["recording.correlation: not 2 rows of 2; the recording is left out."]);
  });

  it("frees an input whose feed is nothing known", () => {
    const { file } = withChange((f) => set(f.monitor.inputs[0], "feed", { kind: "cable" }));
    expect(file.monitor.inputs[0]).toBeNull();
  });

  it("reads a list with holes as one with nothing in them", () => {
    const holes: unknown[] = [];
    holes[2] = exampleSetup().kit.pieces[0];
    const { file, notes } = withChange((f) => set(f.kit, "pieces", holes));
    expect(file.kit.pieces).toHaveLength(3);
    expect(notes).toContain("kit.pieces[0]: nothing is not an object; defaults used.");
  });

  it("keeps hostile names as text", () => {
    const name = "<img src=x onerror=alert(1)>\u202E\u0000=cmd|'/c calc'!A1";
    const { file, notes } = withChange((f) => set(f.channels[0], "name", name));
    expect([file.channels[0]?.name, notes]).toEqual([name, []]);
  });

  it("lets no key reach a prototype", () => {
    const evil = '{"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}},';
    const text = printSetup(exampleSetup())
      .replace("{", evil)
      .replace('"kit": {', `"kit": ${evil}`)
      .replace('"lineCheck": {}', '"lineCheck": {"__proto__": true, "constructor": true}');
    const result = readSetupText(text);
    expect(result).toMatchObject({ ok: true });
    if (!result.ok) return;
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
    expect(result.file).toEqual(exampleSetup());
    expect(Object.getPrototypeOf(result.file)).toBe(Object.prototype);
    expect(result.notes).toContain("kit.__proto__: not known here; left out.");
  });

  it("tells of at most a hundred things, and how many more", () => {
    const channels = Array.from({ length: 200 }, (_, at) => ({
      ...example().channels[0],
      id: `x${at}`,
      pan: 9,
    }));
    const { notes } = read({ ...example(), buses: [], channels });
    expect(notes).toHaveLength(101);
    expect(notes.at(-1)).toMatch(/^And \d+ more of the kind\.$/);
  });

  it("does not change what it is given", () => {
    const given = JSON.parse(frozen);
    delete given.kit.hand;
    const before = JSON.stringify(given);
    read(given);
    expect(JSON.stringify(given)).toBe(before);
  });

  it("of any content is read or refused, never thrown over, and what is read is whole", () => {
    const paths = (value: unknown, at: string[] = []): string[][] =>
      typeof value === "object" && value !== null
        ? [at, ...Object.entries(value).flatMap(([key, inner]) => paths(inner, [...at, key]))]
        : [at];
    const every = paths(JSON.parse(frozen)).slice(1);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom(...every), fc.anything()), { maxLength: 6 }),
        (changes) => {
          const file = JSON.parse(frozen);
          for (const [path, value] of changes) {
            let at = file;
            for (const key of path.slice(0, -1)) at = at?.[key];
            if (typeof at === "object" && at !== null) set(at, path.at(-1) ?? "", structuredClone(value));
          }
          const result = readSetup(file);
          if (!result.ok) {
            expect(result.why).toBeTruthy();
            return;
          }
          expect(mend(result.file)).toBe(result.file);
          expect(readSetupText(printSetup(result.file))).toMatchObject({ ok: true, notes: [] });
          evaluate(result.file);
        },
      ),
      { numRuns: 500 },
    );
  });
});
