import { describe, expect, it } from "vitest";
import { pairIssues } from "../../../src/core/inputs/pair-issues";
import type { Bus, MonitorInput } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const KEYS = channel("Keys", { lines: 2 });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];

const flags = (inputs: readonly (MonitorInput | null)[], more: Partial<Bus> = {}, inputCount = 16) =>
  pairIssues(
    setup(
      [KICK, KEYS],
      [bus("Other", [], { swapped: true }), bus("Drums", ["Kick"], more)],
      inputs,
      inputCount,
    ),
  );

describe("only one side of a pair", () => {
  it("is a fault, and the other side is put beside it", () => {
    expect(flags([null, DL])).toEqual([
      {
        code: "only one side",
        severity: "fault",
        inputs: [1],
        channels: [],
        buses: ["Drums"],
        listeners: [],
        values: { missing: "right" },
        fix: [{ edit: "input", index: 2, to: DR }],
      },
    ]);
    expect(flags([null, KR])[0]).toMatchObject({
      channels: ["Keys"],
      values: { missing: "left" },
      fix: [{ edit: "input", index: 0, to: KL }],
    });
    // The very first input is a place too.
    expect(flags([null, DR])[0]?.fix).toEqual([{ edit: "input", index: 0, to: DL }]);
  });

  it("is put on the other hand where the pair is meant in reverse", () => {
    expect(flags([null, DL], { swapped: true })[0]?.fix).toEqual([{ edit: "input", index: 0, to: DR }]);
    expect(flags([null, DR], { swapped: true })[0]?.fix).toEqual([{ edit: "input", index: 2, to: DL }]);
  });

  it("moves to two free neighbours where there is no room beside it", () => {
    const moved = [
      { edit: "input", index: 0, to: null },
      { edit: "input", index: 2, to: DL },
      { edit: "input", index: 3, to: DR },
    ];
    expect(flags([DL, direct("Kick")])[0]?.fix).toEqual(moved);
    expect(flags([DR, direct("Kick")])[0]?.fix).toEqual(moved);
    // The input beside it is beyond the count.
    expect(flags([null, null, DL], {}, 3)[0]?.fix).toEqual([
      { edit: "input", index: 2, to: null },
      { edit: "input", index: 0, to: DL },
      { edit: "input", index: 1, to: DR },
    ]);
    expect(flags([DL, direct("Kick")], {}, 2)[0]?.fix).toBeUndefined();
    // A copy of the side might count instead: it goes first.
    expect(flags([DL, direct("Kick"), DL])[0]?.fix).toBeUndefined();
  });

  it("is none where both come in by one input, nor where neither does", () => {
    expect(flags([KL, direct("Keys")])).toEqual([]);
    expect(flags([direct("Keys"), KL])).toEqual([]);
    expect(flags([direct("Keys")])).toEqual([]);
  });
});

describe("the order of a pair", () => {
  it("is told where nothing says that it is meant in reverse", () => {
    expect(flags([DR, DL])).toEqual([
      expect.objectContaining({
        code: "swapped",
        severity: "fault",
        inputs: [0, 1],
        buses: ["Drums"],
        fix: [
          { edit: "input", index: 1, to: DR },
          { edit: "input", index: 0, to: DL },
        ],
      }),
    ]);
    expect(flags([DL, DR])).toEqual([]);
  });

  it("is told where it lies straight and is meant in reverse", () => {
    expect(flags([DL, DR], { swapped: true })).toEqual([
      expect.objectContaining({
        code: "normal",
        severity: "fault",
        fix: [
          { edit: "input", index: 0, to: DR },
          { edit: "input", index: 1, to: DL },
        ],
      }),
    ]);
    expect(flags([DR, DL], { swapped: true })).toEqual([]);
  });

  it("of two channels can only be exchanged; switch and trim stay with the input", () => {
    const inputs = [direct("Keys", "right", { trim: -2 }), direct("Keys", "left", { on: false })];
    expect(flags(inputs)).toEqual([
      expect.objectContaining({
        channels: ["Keys"],
        code: "swapped",
        fix: [
          { edit: "input", index: 1, to: direct("Keys", "right", { on: false }) },
          { edit: "input", index: 0, to: direct("Keys", "left", { trim: -2 }) },
        ],
      }),
    ]);
  });
});

describe("the place of a pair", () => {
  it("apart is a warning, and both are put beside each other as they are meant", () => {
    const apart = (more: Partial<Bus>) => flags([DL, direct("Kick"), DR], more);
    expect(apart({})).toEqual([
      expect.objectContaining({
        code: "split",
        severity: "warn",
        inputs: [0, 2],
        fix: [
          { edit: "input", index: 0, to: null },
          { edit: "input", index: 2, to: null },
          { edit: "input", index: 2, to: DL },
          { edit: "input", index: 3, to: DR },
        ],
      }),
    ]);
    expect(apart({ swapped: true })[0]?.fix?.slice(2)).toEqual([
      { edit: "input", index: 2, to: DR },
      { edit: "input", index: 3, to: DL },
    ]);
  });

  it("from an even input on is a note, for mixers that link fixed pairs", () => {
    expect(flags([null, DL, DR])).toEqual([
      expect.objectContaining({
        code: "odd and even",
        severity: "note",
        inputs: [1, 2],
      }),
    ]);
    expect(flags([null, null, DL, DR])).toEqual([]);
  });
});

describe("a pair folded to mono", () => {
  it("needs one input only", () => {
    expect(flags([DL, DR], { folded: true })).toEqual([
      expect.objectContaining({
        code: "spare side",
        severity: "note",
        inputs: [0, 1],
        buses: ["Drums"],
        values: { spare: [1] },
        fix: [{ edit: "input", index: 1, to: null }],
      }),
    ]);
    expect(flags([DL], { folded: true })).toEqual([]);
  });

  it("is another matter than a channel of the same id", () => {
    const s = setup(
      [channel("Drums", { lines: 2 })],
      [bus("Drums", [], { folded: true, swapped: true })],
      [direct("Drums", "left"), direct("Drums", "right")],
    );
    expect(pairIssues(s)).toEqual([]);
  });
});
