import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deskList } from "../../src/core/inputs/desk-list";
import { hearsFoh, isFurther } from "../../src/core/model/kinds";
import { clearTicks, tickInput } from "../../src/document/commands/check";
import { clearDeskTicks, tickMove } from "../../src/document/commands/desk";
import { setInput } from "../../src/document/commands/inputs";
import { removeListener } from "../../src/document/commands/listeners";
import { LIMITS } from "../../src/document/limits";
import { lineKey } from "../../src/document/line-place";
import { readSetup } from "../../src/document/read-setup";
import type { SetupFile, Stamp, TickEntry } from "../../src/document/schema";
import {
  lineSubject,
  logOf,
  mergeLogs,
  tickedSince,
  withLog,
  wordsBySubject,
} from "../../src/document/tick-log";
import { bandSetup } from "./band";

const at = (minute: number): string => new Date(Date.UTC(2031, 4, 4, 18, minute)).toISOString();
const jo = (minute: number): Stamp => ({ at: at(minute), by: "Jo" });
const ada = (minute: number): Stamp => ({ at: at(minute), by: "Ada" });

const band = bandSetup();
const moves = deskList(band);
const [move] = moves;
if (!move) throw new Error("nothing to set");

const [mixer] = band.listeners.filter((l) => !hearsFoh(l)).map((l) => l.id);
if (mixer === undefined) throw new Error("nobody has a mixer");

/** Whoever ticks anything, often the same, on one phone after the other. */
const stamp = fc.record({ at: fc.integer({ min: 0, max: 5 }).map(at), by: fc.constantFrom("Jo", "Ada", "") });
const command = fc.oneof(
  fc
    .tuple(
      fc.integer({ min: 0, max: 3 }),
      fc.constantFrom(true, false, null),
      stamp,
      fc.constantFrom(null, mixer),
    )
    .map((how) => tickInput(...how)),
  fc
    .tuple(fc.constantFrom(...moves.slice(0, 3)), fc.boolean(), stamp)
    .map(([which, isSet, by]) => tickMove(which, isSet, by)),
  stamp.map((by) => clearTicks([0, 1], by)),
  stamp.map((by) => clearDeskTicks(by)),
);
const phone = fc
  .array(command, { maxLength: 12 })
  .map((commands) => commands.reduce((file, each) => each.apply(file), band));
const merged = (file: SetupFile, ...others: readonly SetupFile[]): SetupFile =>
  others.reduce((now, other) => withLog(now, logOf(other)), file);
/** What a setup says of its ticks, whatever the order of the fields. */
const ticksOf = (file: SetupFile) => ({
  line: file.lineCheck,
  desk: new Set(file.deskTicks?.map((t) => JSON.stringify(t))),
  log: logOf(file),
});

describe("ticks of several phones, merged", () => {
  it("are the same whichever comes first, in whatever groups, and however often", () => {
    fc.assert(
      fc.property(phone, phone, phone, (a, b, c) => {
        expect(mergeLogs(logOf(a), logOf(b))).toEqual(mergeLogs(logOf(b), logOf(a)));
        expect(ticksOf(merged(a, b))).toEqual(ticksOf(merged(b, a)));
        expect(ticksOf(merged(merged(a, b), c))).toEqual(ticksOf(merged(a, merged(b, c))));
        expect(merged(merged(a, b), b)).toEqual(merged(a, b));
        expect(merged(a, a)).toBe(a);
      }),
    );
  });

  it("lose nothing: every word of both is there with its name and time", () => {
    fc.assert(
      fc.property(phone, phone, (a, b) => {
        // The order of an entry's fields is that of the command which made it.
        const whole = (entry: object): string => JSON.stringify(Object.entries(entry).sort());
        const all = logOf(merged(a, b)).map(whole);
        for (const entry of [...logOf(a), ...logOf(b)]) expect(all).toContain(whole(entry));
        expect(all).toHaveLength(new Set(all).size);
      }),
    );
  });

  it("hold by the last word about each thing", () => {
    fc.assert(
      fc.property(phone, phone, (a, b) => {
        const file = merged(a, b);
        const words = wordsBySubject(logOf(file));
        for (let index = 0; index < 4; index += 1) {
          for (const listener of [null, mixer]) {
            const place = { index, listener };
            const [last] = words(lineSubject(file, place));
            expect(file.lineCheck[lineKey(place)] ?? null).toBe(last?.said ?? null);
          }
        }
        for (const { control, id, bus } of moves.slice(0, 3)) {
          const [last] = words({ control, id, bus, value: "" });
          const tick = file.deskTicks?.find((t) => t.control === control && t.id === id && t.bus === bus);
          expect(tick?.value ?? null).toBe(last?.said ? last.value : null);
        }
      }),
    );
  });

  it("read back as they were written, with no word said about it", () => {
    fc.assert(
      fc.property(phone, phone, (a, b) => {
        const file = merged(a, b);
        const read = readSetup(JSON.parse(JSON.stringify(file)));
        expect(read).toEqual({ ok: true, file, notes: [] });
      }),
    );
  });
});

it("both sides’ words stay, and the later one holds", () => {
  const here = tickInput(2, true, jo(10)).apply(band);
  const there = tickInput(2, false, ada(12)).apply(band);
  const file = merged(here, there);
  expect(file.lineCheck).toEqual({ 2: false });
  const about = lineSubject(band, { index: 2, listener: null });
  expect(wordsBySubject(logOf(file))(about)).toEqual([
    { ...about, said: false, ...ada(12) },
    { ...about, said: true, ...jo(10) },
  ]);
});

it("a tick that was taken off here does not come back with an older one from there", () => {
  const there = tickMove(move, true, ada(5)).apply(band);
  const here = tickMove(move, false, jo(6)).apply(merged(band, there));
  expect(here.deskTicks).toBeUndefined();
  expect(merged(here, there)).toBe(here);
});

it("ticks from before there was a log are no less than others", () => {
  const { tickLog: _, ...old } = tickMove(move, true, jo(9)).apply(band);
  const there = tickMove(move, false, ada(8)).apply(tickMove(move, true, ada(7)).apply(band));
  expect(merged(old, there).deskTicks).toEqual(old.deskTicks);
});

it("what is tapped now holds, though the clock of the other phone is an hour ahead", () => {
  const ahead = merged(band, tickInput(2, false, ada(70)).apply(band));
  const file = tickInput(2, true, jo(10)).apply(ahead);
  expect(file.lineCheck).toEqual({ 2: true });
  expect(logOf(file).at(-1)).toMatchObject({ by: "Jo", said: true, at: "2031-05-04T19:10:00.001Z" });
  expect(merged(file, ahead)).toBe(file);
});

it("a word about another feed than is in the input now, or about what is gone, is left out", () => {
  const there = tickInput(2, true, ada(5)).apply(band);
  const here = setInput(2, null).apply(band);
  expect(merged(here, there)).toBe(here);
  const moved = setInput(2, band.monitor.inputs[3] ?? null).apply(band);
  expect(merged(moved, there)).toBe(moved);
  const ghost: TickEntry = { control: "pan", id: "s99", bus: "", value: "0", said: true, ...ada(5) };
  expect(withLog(band, [ghost])).toBe(band);
});

it("a log that is full stays as it is; up to that every word is taken", () => {
  const entries = Array.from({ length: LIMITS.deskTicks }, (_, n): TickEntry => {
    const time = new Date(Date.UTC(2031, 4, 4) + n).toISOString();
    return { control: "fader", id: "s1", bus: "", value: String(n), said: false, at: time, by: "Jo" };
  });
  const almost = { ...band, tickLog: entries.slice(1) };
  const full = tickInput(2, true, ada(70)).apply(almost);
  expect(logOf(full)).toHaveLength(LIMITS.deskTicks);
  expect(full.lineCheck).toEqual({ 2: true });
  expect(tickInput(3, true, ada(71)).apply(full)).toBe(full);
  const [own] = logOf(tickInput(3, true, ada(71)).apply(band));
  if (!own) throw new Error("no word");
  expect(logOf(withLog(almost, [own]))).toHaveLength(LIMITS.deskTicks);
  expect(withLog(full, [own])).toBe(full);
});

it("of a helper’s copy only what was ticked on it goes back, though its clock is behind", () => {
  const mine = tickInput(2, true, jo(30)).apply(band);
  const copy: SetupFile = { ...mine, handed: { of: "a1", at: at(31) } };
  expect(tickedSince(copy)).toEqual([]);
  // What was said in the very moment of handing over is in the copy.
  expect(tickedSince({ ...mine, handed: { of: "a1", at: at(30) } })).toEqual([]);
  const ticked = tickMove(move, true, ada(3)).apply(tickInput(4, false, ada(2)).apply(copy));
  expect(tickedSince(ticked).map(({ control, said, by }) => [control, said, by])).toEqual([
    ["line check", false, "Ada"],
    [move.control, true, "Ada"],
  ]);
  expect(tickedSince(mine)).toEqual([]);
});

it.each<[string, unknown]>([
  ["no time", { at: "soon" }],
  ["a time of another century", { at: "9999-12-31T23:59:59.999Z" }],
  ["a day that no month has", { at: "2031-13-45T00:00:00.000Z" }],
  ["half a word", { said: "yes" }],
  ["a feed that is none", { value: '{"kind":"cable"}' }],
  ["another kind", { control: "constructor" }],
])("an entry with %s is left out, and said", (_, bad) => {
  const file = tickInput(2, true, jo(1)).apply(band);
  const tickLog = [...(file.tickLog ?? []), { ...file.tickLog?.[0], ...(bad as object) }];
  const read = readSetup(JSON.parse(JSON.stringify({ ...file, tickLog })));
  if (!read.ok) throw new Error(read.why.code);
  expect(read.file).toEqual(file);
  expect(read.notes).toEqual([{ code: "bad ticks", at: "tickLog", bad: 1, all: 2 }]);
});

it("what is said at a musician's mixer stands beside what is said anywhere, and goes with the musician", () => {
  const further = band.listeners.find(isFurther)?.id ?? "";
  const file = [tickInput(2, true, jo(10)), tickInput(2, false, ada(12), further)].reduce(
    (now, each) => each.apply(now),
    band,
  );
  expect(file.lineCheck).toEqual({ 2: true, [`2 ${further}`]: false });
  expect(clearTicks([2], jo(14)).apply(file).lineCheck).toEqual({ [`2 ${further}`]: false });
  expect(clearTicks([2], jo(14), further).apply(file).lineCheck).toEqual({ 2: true });
  const without = removeListener(further).apply(file);
  expect(without.lineCheck).toEqual({ 2: true });
  expect(without.tickLog?.map((entry) => entry.by)).toEqual(["Jo"]);
  // Another phone that still has the musician brings back nothing of them.
  expect(withLog(without, logOf(file))).toBe(without);
});

it("a word about what is in an input is no word about what is put there afterwards", () => {
  const place = { index: 2, listener: null };
  const ticked = tickInput(2, true, jo(1)).apply(band);
  const other = setInput(2, band.monitor.inputs[3] ?? null).apply(ticked);
  const words = wordsBySubject(logOf(other));
  expect(lineSubject(other, place)).not.toEqual(lineSubject(band, place));
  expect(words(lineSubject(band, place)).map(({ by }) => by)).toEqual(["Jo"]);
  expect(words(lineSubject(other, place))).toEqual([]);
});
