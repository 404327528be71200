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
import type { ReadRefusal } from "../../src/text/reading";
import { applied } from "./commands";

/** What a law may be. */
const EVERY_LAW = Object.keys(LAWS);

/** Parsed JSON, as loose as it comes. */
type Json = ReturnType<typeof JSON.parse>;

const fixture = (version: number): string =>
  readFileSync(new URL(`../fixtures/setup-v${version}.json`, import.meta.url), "utf8");
const frozen = fixture(VERSION);
const example = (): Json => JSON.parse(printSetup(exampleSetup()));

const read = (value: unknown) => {
  const result = readSetup(value);
  if (!result.ok) throw new Error(result.why.code);
  return result;
};

const refused = (value: unknown): ReadRefusal | null => {
  const result = readSetup(value);
  return result.ok ? null : result.why;
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
      why: { code: "not JSON", what: "setup" },
    });
    expect(readSetupText(frozen.slice(0, 5000))).toMatchObject({ ok: false });
    expect(readSetupText("[".repeat(200_000))).toMatchObject({ ok: false });
    expect(refused(null)).toEqual({ code: "not ours", what: "setup", given: null });
    expect(refused([])).toEqual({ code: "not ours", what: "setup", given: { a: "empty list" } });
    expect(refused("hat")).toEqual({ code: "not ours", what: "setup", given: "hat" });
    expect(refused({ format: "drawing", version: 1 })).toEqual({
      code: "other format",
      what: "setup",
      given: "drawing",
      format: "hatside-setup",
    });
    expect(refused({ version: 1 })).toMatchObject({ code: "other format", given: undefined });
  });

  it("is refused when it is newer, with what to do", () => {
    expect(refused({ ...example(), version: VERSION + 1 })).toEqual({
      code: "newer",
      what: "setup",
      version: VERSION + 1,
      newest: VERSION,
    });
    for (const version of [0, -1, 1.5, "1", null, undefined])
      expect(refused({ ...example(), version })).toEqual({
        code: "no version",
        given: version,
        oldest: 1,
        newest: VERSION,
      });
  });

  it("with nothing in it gets every default, each named", () => {
    const { file, notes } = read({ format: "hatside-setup", version: VERSION });
    expect(mend(file)).toBe(file);
    expect(evaluate(file)).toBeTruthy();
    expect(notes).toContainEqual(
      expect.objectContaining({ code: "replaced", at: "name", given: undefined, used: "Unnamed setup" }),
    );
    expect(notes).toContainEqual({ code: "no object", at: "desk", given: undefined });
    expect(notes).toContainEqual(
      expect.objectContaining({
        code: "replaced",
        at: "channels",
        given: undefined,
        used: { a: "empty list" },
      }),
    );
    expect(notes).toContainEqual({ code: "listener added", kind: "drummer" });
    expect(file.monitor.inputs).toHaveLength(16);
  });

  it("takes the earphones that an estimate begins with where a field of them is missing", () => {
    const { file } = withChange((f) => set(f, "earphone", { isolation: 30 }));
    expect(file.earphone).toEqual({ ...applied(exampleSetup(), editEarphone({})).earphone, isolation: 30 });
  });

  it("puts a listener without a place at the throne", () => {
    const { file, notes } = withChange((f) => delete f.listeners[2].y);
    expect([file.listeners[2]?.y, notes]).toEqual([
      0,
      [expect.objectContaining({ code: "replaced", at: "listeners[2].y", given: undefined, used: 0 })],
    ]);
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
      { code: "unknown", at: "colour" },
      { code: "replaced", at: "kit.yaw", given: { a: "list" }, allowed: { min: -180, max: 180 }, used: 0 },
      { code: "replaced", at: "desk.law", given: "mine", allowed: EVERY_LAW, used: "sine" },
      expect.objectContaining({ code: "replaced", at: "desk.panSteps", given: undefined, used: 100 }),
      { code: "replaced", at: "channels[2].muted", given: "yes", allowed: "true or false", used: false },
      {
        code: "replaced",
        at: "buses[0].sends[1].level",
        given: "loud",
        allowed: { min: -120, max: 40 },
        used: 0,
      },
      {
        code: "replaced",
        at: "listeners[1].facing",
        given: { a: "object" },
        allowed: { min: -180, max: 180 },
        used: 0,
      },
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
      { code: "replaced", at: "channels[0].pan", given: 1.5, allowed: { min: -1, max: 1 }, used: 0 },
      { code: "replaced", at: "channels[1].pan", given: Number.NaN, allowed: { min: -1, max: 1 }, used: 0 },
      {
        code: "replaced",
        at: "channels[2].gatedRms",
        given: Number.POSITIVE_INFINITY,
        allowed: { min: -120, max: 24 },
        used: null,
      },
      { code: "replaced", at: "buses[0].sideTrim[0]", given: -61, allowed: { min: -60, max: 20 }, used: 0 },
      expect.objectContaining({ code: "replaced", at: "buses[0].sideTrim[1]", given: undefined, used: 0 }),
      { code: "replaced", at: "monitor.inputCount", given: 12.5, allowed: "whole number", used: 16 },
    ]);
    expect([file.channels[0]?.pan, file.channels[1]?.pan, file.channels[2]?.gatedRms]).toEqual([0, 0, null]);
    const huge = readSetupText(printSetup(exampleSetup()).replace('"yaw": 0', '"yaw": 1e999'));
    expect(huge).toMatchObject({
      ok: true,
      notes: [
        {
          code: "replaced",
          at: "kit.yaw",
          given: Number.POSITIVE_INFINITY,
          allowed: { min: -180, max: 180 },
          used: 0,
        },
      ],
    });
  });

  it("takes the ends of a range and nothing beyond", () => {
    const panNotes = (pan: number) => withChange((f) => set(f.channels[0], "pan", pan)).notes.length;
    expect([-1, 1, -1 - Number.EPSILON, 1 + Number.EPSILON].map(panNotes)).toEqual([0, 0, 1, 1]);
  });

  it("is refused when a part of it would be lost, the limit named", () => {
    const file = example();
    const many = Array.from({ length: 10_000 }, (_, at) => ({ ...file.channels[0], id: `x${at}` }));
    expect(refused({ ...file, channels: many })).toEqual({
      code: "too many",
      at: "channels",
      count: 10000,
      limit: 512,
    });
    expect(refused({ ...file, channels: many.slice(0, LIMITS.channels + 1) })).toMatchObject({ count: 513 });
    expect(read({ ...file, channels: many.slice(0, LIMITS.channels) }).file.channels).toHaveLength(512);
    const inputs = Array(LIMITS.inputs + 1).fill(null);
    expect(refused({ ...file, monitor: { ...file.monitor, inputs } })).toEqual({
      code: "too many",
      at: "monitor.inputs",
      count: 193,
      limit: 192,
    });
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
      { code: "id given", name: "Snare" },
      { code: "second drummer", name: "Lene, keys" },
      { code: "no such bus", name: "Tobi, lead vox" },
      { code: "no such piece", name: "Kick" },
      { code: "no such send", name: "Drums" },
      { code: "no such feed", index: 2, isFree: true },
      { code: "no such first" },
      { code: "check ended" },
      { code: "ticks removed" },
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
    expect(notes).toContainEqual({ code: "listener added", kind: "audience" });
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
    expect(notes[0]).toEqual({ code: "listener turned", kind: "audience", name: "Singer 32" });
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
    expect(notes).toEqual([{ code: "too long", at: "channels[0].name", letters: 2001, kept: 2000 }]);
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
      { code: "unknown", at: "“<img src=x>yyyyyyyyyyyyy…”" },
      {
        code: "replaced",
        at: "lineCheck.“<img src=x>yyyyyyyyyyyyy…”",
        given: 3,
        allowed: "true or false",
        used: false,
      },
      { code: "no such piece", name: "z".repeat(1000) },
      { code: "ticks removed" },
    ]);
  });

  it("leaves a recording out whose correlations do not fit, rather than guess", () => {
    const file = JSON.parse(frozen);
    file.recording.correlation.pop();
    const { file: got, notes } = read(file);
    expect(got.recording).toBeNull();
    expect(notes).toEqual([{ code: "not square", at: "recording.correlation", size: 2 }]);
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
    expect(notes).toContainEqual({ code: "no object", at: "kit.pieces[0]", given: null });
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
    expect(result.notes).toContainEqual({ code: "unknown", at: "kit.__proto__" });
  });

  it("tells of at most a hundred things, and how many more", () => {
    const channels = Array.from({ length: 200 }, (_, at) => ({
      ...example().channels[0],
      id: `x${at}`,
      pan: 9,
    }));
    const { notes } = read({ ...example(), buses: [], channels });
    expect(notes).toHaveLength(101);
    expect(notes.at(-1)).toEqual({ code: "more", count: expect.any(Number) });
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
