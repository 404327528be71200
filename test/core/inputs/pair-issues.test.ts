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
        says: "Only the left side of Drums is patched: what is on the other side is missing.",
        remedy: "Patch the right side beside it, or make Drums mono.",
        fix: [{ edit: "input", index: 2, to: DR }],
      },
    ]);
    expect(flags([null, KR])[0]).toMatchObject({
      channels: ["Keys"],
      says: "Only the right channel of Keys is patched: what is on the other side is missing.",
      remedy: "Patch the left channel beside it, or make Keys mono.",
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
        code: "reversed",
        severity: "fault",
        inputs: [0, 1],
        buses: ["Drums"],
        says: "Drums is patched in reverse order in inputs 1 and 2, and nothing says that it is meant.",
        remedy: "Exchange inputs 1 and 2, or say that Drums is meant to be swapped.",
      }),
    ]);
    expect(flags([DL, DR])).toEqual([]);
  });

  it("is told where it lies straight and is meant in reverse", () => {
    expect(flags([DL, DR], { swapped: true })).toEqual([
      expect.objectContaining({
        code: "normal",
        severity: "fault",
        says: "Drums is meant to be patched in reverse order, but lies straight in inputs 1 and 2.",
        remedy: "Exchange inputs 1 and 2, or say that Drums is not meant to be swapped.",
      }),
    ]);
    expect(flags([DR, DL], { swapped: true })).toEqual([]);
  });

  it("of two channels can only be exchanged; switch and trim stay with the input", () => {
    const inputs = [direct("Keys", "right", { trim: -2 }), direct("Keys", "left", { on: false })];
    expect(flags(inputs)).toEqual([
      expect.objectContaining({
        channels: ["Keys"],
        says: "Keys is patched in reverse order in inputs 1 and 2.",
        remedy: "Exchange inputs 1 and 2.",
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
        says: "Drums lies in inputs 1 and 3, which are not neighbours: a mixer that links neighbours can’t make a pair of it.",
        remedy: "Put both sides into neighbouring inputs.",
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
        says: "Drums lies in inputs 2 and 3: a mixer that only links 1 and 2, 3 and 4 and so on can’t make a pair of it.",
        remedy: "If yours is one of them, begin the pair in an odd input.",
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
        says: "Drums is folded to mono: inputs 1 and 2 carry the same.",
        remedy: "One input is enough: free input 2.",
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
