import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batch, during, edit, step } from "../../src/document/command";
import { setSend } from "../../src/document/commands/buses";
import { dragPan, editChannel } from "../../src/document/commands/channels";
import {
  back,
  beginHistory,
  forward,
  type History,
  MAX_STEPS,
  named as nowNamed,
  record,
  settle,
} from "../../src/document/history";
import { bandSetup } from "./band";
import { commands } from "./commands";

const start = beginHistory(bandSetup());
const named = (name: string) => step(name, (file) => ({ ...file, name }));

const histories = fc
  .array(
    fc.oneof({ weight: 5, arbitrary: commands }, fc.constantFrom("back", "forward", "settle" as const)),
    {
      maxLength: 30,
    },
  )
  .map((moves) =>
    moves.reduce<History>((history, move) => {
      if (move === "back") return back(history);
      if (move === "forward") return forward(history);
      return move === "settle" ? settle(history) : record(history, move);
    }, start),
  );

describe("history", () => {
  it("undoes and redoes exactly, from anywhere", () => {
    fc.assert(
      fc.property(histories, (history) => {
        if (history.past.length > 0) {
          const again = forward(back(history));
          expect(again).toEqual({ ...history, visit: null });
          expect(again.present).toBe(history.present);
        }
        if (history.future.length > 0) expect(back(forward(history))).toEqual({ ...history, visit: null });
      }),
      { numRuns: 200 },
    );
  });

  it("goes all the way back to the very setup it began with", () => {
    fc.assert(
      fc.property(fc.array(commands, { maxLength: 30 }), (done) => {
        let history = done.reduce(record, start);
        while (history.past.length > 0) history = back(history);
        expect(history.present).toBe(start.present);
      }),
      { numRuns: 200 },
    );
  });

  it("forgets what was undone when something else is done", () => {
    const undone = back(record(record(start, named("a")), named("b")));
    expect(undone.future).toHaveLength(1);
    const other = record(undone, named("c"));
    expect(other.future).toEqual([]);
    expect(forward(other)).toBe(other);
    expect(back(other).present.name).toBe("a");
  });

  it("makes any number of drag moves one undo, until the drag ends", () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1 }), (pans) => {
        const moved = pans.reduce((history, pan) => record(history, dragPan("s1", pan / 100)), start);
        expect(moved.past).toHaveLength(1);
        expect(back(moved).present).toBe(start.present);
        expect(record(settle(moved), dragPan("s1", -1)).past).toHaveLength(2);
      }),
    );
  });

  it("makes nothing of a drag that ended as it began: the very setup from before is there again", () => {
    const before = record(start, named("a"));
    const moved = [0.4, 0.6, 0].reduce((history, pan) => record(history, dragPan("s1", pan)), before);
    expect(moved.present).not.toBe(before.present);
    expect(settle(moved)).toEqual({ ...before, future: [] });
    expect(settle(moved).present).toBe(before.present);
    expect(settle(record(moved, dragPan("s1", 0.1))).past).toHaveLength(2);
  });

  it("keeps visits to different values and steps between them apart", () => {
    const turn = during(
      edit("turn throne", "yaw", (file) => ({ ...file, kit: { ...file.kit, yaw: file.kit.yaw + 1 } })),
    );
    const labels = [dragPan("s1", 0.1), turn, turn, named("a"), turn]
      .reduce(record, start)
      .past.map((stop) => stop.label);
    expect(labels).toEqual(["pan", "turn throne", "a", "turn throne"]);
  });

  it("keeps two channels apart, and two fields of one, though the word behind Undo is the same", () => {
    const moves = [
      dragPan("s1", 0.1),
      dragPan("s2", 0.3),
      during(editChannel("s2", { name: "a" })),
      during(editChannel("s2", { name: "ab" })),
      during(editChannel("s2", { gatedRms: -20 })),
      during(setSend("m1", "s1", { level: -6 })),
      during(setSend("m1", "s2", { level: -6 })),
    ];
    expect(moves.reduce(record, start).past.map((stop) => stop.label)).toEqual([
      "pan",
      "pan",
      "change channel",
      "change channel",
      "change send",
      "change send",
    ]);
  });

  it("makes one undo of several commands in a batch, and nothing of a batch that changes nothing", () => {
    const both = batch("move both", [dragPan("s1", 0.5), dragPan("s2", 0.5)]);
    const done = record(start, both);
    expect(done.past.map((stop) => stop.label)).toEqual(["move both"]);
    expect([done.present.channels[0]?.pan, done.present.channels[1]?.pan]).toEqual([0.5, 0.5]);
    expect(record(done, both)).toBe(done);
  });

  it("begins with nothing to undo or redo", () => {
    expect(beginHistory(bandSetup())).toEqual({ past: [], present: bandSetup(), future: [], visit: null });
  });

  it("keeps every step before a drag, whether the drag is dropped or stays", () => {
    const before = ["a", "b", "c"].map(named).reduce(record, start);
    const dropped = settle([0.4, 0].map((pan) => dragPan("s1", pan)).reduce(record, before));
    expect(dropped.past.map((stop) => stop.label)).toEqual(["a", "b", "c"]);
    expect(dropped.present).toBe(before.present);
    const stays = settle(record(before, dragPan("s1", 0.4)));
    expect(stays.past.map((stop) => stop.label)).toEqual(["a", "b", "c", "pan"]);
  });

  it("takes a step for one of its own, also where it is called like the drag under way", () => {
    const pan = step("pan", (file) => ({ ...file, name: "panned" }));
    expect([dragPan("s1", 0.1), pan].reduce(record, start).past).toHaveLength(2);
  });

  it("has nothing to settle where nothing is dragged, also where a step ends as it began", () => {
    const same = record(
      start,
      step("same", (file) => ({ ...file })),
    );
    expect(same.past).toHaveLength(1);
    for (const history of [start, same]) expect(settle(history)).toBe(history);
  });

  it("begins a new drag after an undo", () => {
    const undone = back(record(record(start, dragPan("s1", 0.1)), named("a")));
    expect(record(undone, dragPan("s1", 0.2)).past).toHaveLength(2);
  });

  it("adds no step for a command that changes nothing", () => {
    expect(record(start, dragPan("nobody", 1))).toBe(start);
    const once = record(start, dragPan("s1", 0.5));
    expect(record(once, dragPan("s1", 0.5))).toBe(once);
  });

  it("gives another name to every step that is called like the present one, and to nothing else", () => {
    const pan = settle(record(record(start, named("Quartet")), dragPan("s1", 0.1)));
    const history = back(back(record(record(pan, named("Quintet")), named("Quartet"))));
    const other = nowNamed(history, "Quartet 2");
    const names = ({ past, present, future }: History) =>
      [past.map((stop) => stop.file), present, future.map((stop) => stop.file)]
        .flat()
        .map((file) => file.name);
    expect(names(history)).toEqual([start.present.name, "Quartet", "Quartet", "Quintet", "Quartet"]);
    expect(names(other)).toEqual([start.present.name, "Quartet 2", "Quartet 2", "Quintet", "Quartet 2"]);
    expect(nowNamed(other, "Quartet")).toEqual(history);
  });

  it("gives another name while a finger drags: the drag goes on", () => {
    const dragged = nowNamed(record(start, dragPan("s1", 0.1)), "Quartet");
    const on = record(dragged, dragPan("s1", 0.2));
    expect(on.past).toHaveLength(1);
    expect(back(on).present).toEqual({ ...start.present, name: "Quartet" });
  });

  it("is bounded", () => {
    const many = Array.from({ length: MAX_STEPS + 50 }, (_, at) => named(`n${at}`)).reduce(record, start);
    expect(many.past).toHaveLength(MAX_STEPS);
    expect(many.past[0]?.file.name).toBe("n49");
  });
});
