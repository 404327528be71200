import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { deskList } from "../../src/core/inputs/desk-list";
import { fohTakes } from "../../src/core/inputs/foh-reach";
import { sheetRows } from "../../src/core/inputs/sheet";
import { chainOf } from "../../src/core/inputs/trace";
import { tickInput } from "../../src/document/commands/check";
import { tickMove } from "../../src/document/commands/desk";
import { exampleSetup } from "../../src/document/example";
import { handOver, readHandOver } from "../../src/document/hand-over";
import { readLinked } from "../../src/document/linked";
import { type SetupFile, VERSION } from "../../src/document/schema";
import { filled, thinned } from "../../src/document/thin";
import { logOf, withLog } from "../../src/document/tick-log";
import { isTicks, readTicks, ticksToSend } from "../../src/document/ticks-file";
import { bandSetup } from "./band";
import { applied, commands } from "./commands";

const AT = "2031-05-04T18:00:00.000Z";
const JO = { at: "2031-05-04T17:30:00.000Z", by: "Jo" };
const ADA = { at: "2031-05-04T18:30:00.000Z", by: "Ada" };
const example = exampleSetup();

const sent = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
const received = (file: SetupFile, at = AT): SetupFile => {
  const read = readHandOver(sent(handOver(file, "a1b2", at)));
  if (!read.ok) throw new Error(read.why.code);
  expect(read.notes).toEqual([]);
  return read.file;
};

describe("what is written in short", () => {
  const item = fc.record({
    id: fc.integer({ min: 1, max: 4 }).map((n) => `s${n}`),
    numbers: fc.array(fc.integer({ min: 1, max: 3 }), { maxLength: 2 }),
    on: fc.boolean(),
    level: fc.constantFrom(null, 0, -5),
    tap: fc.record({ at: fc.constantFrom("pre", "post") }),
    feeds: fc.array(fc.record({ to: fc.constantFrom("m1", "m2", "m3") }), { maxLength: 3 }),
  });
  const pattern = {
    ...{ id: undefined, numbers: [], on: true, level: 0 },
    ...{ tap: { at: "pre" }, feeds: [{ to: "m1" }] },
  };

  it("is read as it was, whatever is usual in it and whatever counts up", () => {
    fc.assert(
      fc.property(fc.array(fc.option(item), { maxLength: 8 }), (list) => {
        const short = sent(thinned(list, [pattern]));
        expect(filled(short, [pattern])).toEqual(list);
        if (list[0]) expect(filled(sent(thinned(list[0], pattern)), pattern)).toEqual(list[0]);
      }),
    );
  });

  it("counts ids and numbers up, and says what is usual not at all", () => {
    const list = [1, 2, 3].map((n) => ({
      id: `s${n}`,
      numbers: [2 * n - 1, 2 * n],
      on: n !== 2,
      level: undefined,
      tap: { at: "pre" },
    }));
    const usual = { id: undefined, numbers: [], on: true, level: 0, tap: { at: "pre" } };
    expect(thinned(list, [usual])).toEqual([
      [[3, 1]],
      ...[0, [[-3, "s1"]]],
      ...[1, [[-3, [1, 2]]]],
      ...[2, [true, false, true]],
      ...[3, [[3, undefined]]],
    ]);
    expect(thinned(list[0], usual)).toEqual([0, "s1", 1, [1, 2]]);
    expect([thinned(5, usual), thinned({ a: 1 }, 5)]).toEqual([5, { a: 1 }]);
  });

  it("is never longer than a list may be, whatever it says of its length", () => {
    expect(filled([[[1e9, 1]], 2, [[1e9, true]]], [pattern])).toHaveLength(10_000);
    for (const odd of [5, "x", null, [[["a", 1]]], [7], [[[1, 1]], 0]])
      expect(() => filled(odd, [pattern])).not.toThrow();
  });
});

describe("a setup that is handed over", () => {
  it("has the same desk list, line check, traces and audit, and says where it comes from", () => {
    fc.assert(
      fc.property(fc.array(commands, { maxLength: 6 }), (done) => {
        const file = applied(example, ...done);
        const copy = received(file);
        expect(copy.handed?.of).toBe("a1b2");
        expect(copy.name).toBe(file.name);
        expect(deskList(copy)).toEqual(deskList(file));
        expect(sheetRows(copy)).toEqual(sheetRows(file));
        expect(logOf(copy)).toEqual(logOf(file));
        expect(copy.lineCheck).toEqual(file.lineCheck);
        const about = { what: "everything" } as const;
        for (const [i, listener] of file.listeners.entries()) {
          expect(copy.listeners[i]?.name).toBe(listener.name);
          expect(fohTakes(copy, copy.listeners[i] ?? listener)).toEqual(fohTakes(file, listener));
          expect(chainOf(copy, copy.listeners[i] ?? listener, about)).toEqual(chainOf(file, listener, about));
        }
      }),
    );
  });

  it("has no levels, notes or recordings in it", () => {
    const text = JSON.stringify(handOver({ ...example, note: "Keys are late" }, "a1b2", AT));
    const copy = received({ ...example, note: "Keys are late" });
    expect(text).not.toContain("late");
    expect([copy.note, copy.recording, copy.earphone, copy.kit.pieces]).toEqual(["", null, null, []]);
    expect(copy.channels.every((c) => c.gatedRms === null && c.peak === null)).toBe(true);
  });

  it("is later than every tick in it, though the clock was set back since", () => {
    const ahead = tickInput(2, true, ADA).apply(example);
    expect(received(ahead).handed?.at).toBe(ADA.at);
  });

  it.each<[string, object, object]>([
    ["of another version", { version: 2 }, { code: "no version", given: 2, newest: VERSION }],
    ["from nowhere", { of: 5 }, { code: "from nowhere" }],
    ["with nothing in it", { setup: 7 }, { code: "no setup" }],
  ])("is refused %s", (_, bad, why) => {
    const read = readHandOver({ ...handOver(example, "a1b2", AT), ...bad });
    expect(read).toMatchObject({ ok: false, why });
  });
});

describe("a helper’s ticks", () => {
  it("go back by themselves, and are merged beside those of the first phone", () => {
    const mine = tickInput(2, true, JO).apply(bandSetup());
    const copy = received(mine);
    const [move] = deskList(copy);
    if (!move) throw new Error("nothing to set");
    const ticked = tickMove(move, true, ADA).apply(tickInput(2, false, ADA).apply(copy));
    const read = readLinked(sent(ticksToSend(ticked)));
    if (!read.ok || !isTicks(read.file)) throw new Error("no ticks are read");
    expect(read.notes).toEqual([]);
    expect(read.file).toMatchObject({ of: "a1b2", name: mine.name });
    expect(read.file.ticks.map((t) => [t.control, t.by])).toEqual([
      ["line check", "Ada"],
      [move.control, "Ada"],
    ]);
    const meanwhile = tickInput(3, true, JO).apply(mine);
    const file = withLog(meanwhile, read.file.ticks);
    expect(file.lineCheck).toEqual({ 2: false, 3: true });
    expect(file.deskTicks).toHaveLength(1);
    expect(logOf(file).map((t) => t.by)).toEqual(["Jo", "Jo", "Ada", "Ada"]);
    expect(withLog(file, read.file.ticks)).toBe(file);
  });

  it("that are none are left out, and said", () => {
    const ticked = tickInput(2, false, ADA).apply(received(example));
    const file = sent(ticksToSend(ticked)) as { ticks: unknown[] };
    const read = readTicks({ ...file, ticks: [...file.ticks.slice(0, -1), ["nobody", 5]] });
    expect(read).toMatchObject({ ok: true, notes: [{ code: "bad ticks", at: "ticks", bad: 1, all: 1 }] });
    expect(readTicks({ ...file, of: null })).toMatchObject({ ok: false });
  });
});
