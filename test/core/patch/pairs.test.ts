import { describe, expect, it } from "vitest";
import { pairFlags } from "../../../src/core/patch/pairs";
import type { Slot, Sum } from "../../../src/core/setup";
import { direct, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const KEYS = source("Keys", { channels: 2 });
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];

const flags = (slots: readonly (Slot | null)[], more: Partial<Sum> = {}, slotCount = 16) =>
  pairFlags(
    setup(
      [KICK, KEYS],
      [sum("Other", [], { reversed: true }), sum("Drums", ["Kick"], more)],
      slots,
      slotCount,
    ),
  );

describe("only one side of a pair", () => {
  it("is a fault, and the other side is put beside it", () => {
    expect(flags([null, DL])).toEqual([
      {
        code: "only one side",
        severity: "fault",
        slots: [1],
        sources: [],
        sums: ["Drums"],
        listeners: [],
        says: "Only the left leg of Drums is patched: what is on the other side is missing.",
        remedy: "Patch the right leg beside it, or make Drums mono.",
        fix: [{ edit: "slot", index: 2, to: DR }],
      },
    ]);
    expect(flags([null, KR])[0]).toMatchObject({
      sources: ["Keys"],
      says: "Only the right channel of Keys is patched: what is on the other side is missing.",
      remedy: "Patch the left channel beside it, or make Keys mono.",
      fix: [{ edit: "slot", index: 0, to: KL }],
    });
    // The very first slot is a place too.
    expect(flags([null, DR])[0]?.fix).toEqual([{ edit: "slot", index: 0, to: DL }]);
  });

  it("is put on the other hand where the pair is meant in reverse", () => {
    expect(flags([null, DL], { reversed: true })[0]?.fix).toEqual([{ edit: "slot", index: 0, to: DR }]);
    expect(flags([null, DR], { reversed: true })[0]?.fix).toEqual([{ edit: "slot", index: 2, to: DL }]);
  });

  it("moves to two free neighbours where there is no room beside it", () => {
    const moved = [
      { edit: "slot", index: 0, to: null },
      { edit: "slot", index: 2, to: DL },
      { edit: "slot", index: 3, to: DR },
    ];
    expect(flags([DL, direct("Kick")])[0]?.fix).toEqual(moved);
    expect(flags([DR, direct("Kick")])[0]?.fix).toEqual(moved);
    // The slot beside it is beyond the count.
    expect(flags([null, null, DL], {}, 3)[0]?.fix).toEqual([
      { edit: "slot", index: 2, to: null },
      { edit: "slot", index: 0, to: DL },
      { edit: "slot", index: 1, to: DR },
    ]);
    expect(flags([DL, direct("Kick")], {}, 2)[0]?.fix).toBeUndefined();
    // A copy of the side might count instead: it goes first.
    expect(flags([DL, direct("Kick"), DL])[0]?.fix).toBeUndefined();
  });

  it("is none where both come in by one slot, nor where neither does", () => {
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
        slots: [0, 1],
        sums: ["Drums"],
        says: "Drums is patched in reverse order in slots 1 and 2, and nothing says that it is meant.",
        remedy: "Exchange slots 1 and 2, or say that Drums is meant to be swapped.",
      }),
    ]);
    expect(flags([DL, DR])).toEqual([]);
  });

  it("is told where it lies straight and is meant in reverse", () => {
    expect(flags([DL, DR], { reversed: true })).toEqual([
      expect.objectContaining({
        code: "straight",
        severity: "fault",
        says: "Drums is meant to be patched in reverse order, but lies straight in slots 1 and 2.",
        remedy: "Exchange slots 1 and 2, or say that Drums is not meant to be swapped.",
      }),
    ]);
    expect(flags([DR, DL], { reversed: true })).toEqual([]);
  });

  it("of two channels can only be exchanged; switch and trim stay with the slot", () => {
    const slots = [direct("Keys", "right", { trim: -2 }), direct("Keys", "left", { on: false })];
    expect(flags(slots)).toEqual([
      expect.objectContaining({
        sources: ["Keys"],
        says: "Keys is patched in reverse order in slots 1 and 2.",
        remedy: "Exchange slots 1 and 2.",
        fix: [
          { edit: "slot", index: 1, to: direct("Keys", "right", { on: false }) },
          { edit: "slot", index: 0, to: direct("Keys", "left", { trim: -2 }) },
        ],
      }),
    ]);
  });
});

describe("the place of a pair", () => {
  it("apart is a warning, and both are put beside each other as they are meant", () => {
    const apart = (more: Partial<Sum>) => flags([DL, direct("Kick"), DR], more);
    expect(apart({})).toEqual([
      expect.objectContaining({
        code: "split",
        severity: "warn",
        slots: [0, 2],
        says: "Drums lies in slots 1 and 3, which are not neighbours: a mixer that links neighbours can’t make a pair of it.",
        remedy: "Put both sides into neighbouring slots.",
        fix: [
          { edit: "slot", index: 0, to: null },
          { edit: "slot", index: 2, to: null },
          { edit: "slot", index: 2, to: DL },
          { edit: "slot", index: 3, to: DR },
        ],
      }),
    ]);
    expect(apart({ reversed: true })[0]?.fix?.slice(2)).toEqual([
      { edit: "slot", index: 2, to: DR },
      { edit: "slot", index: 3, to: DL },
    ]);
  });

  it("from an even slot on is a note, for mixers that link fixed pairs", () => {
    expect(flags([null, DL, DR])).toEqual([
      expect.objectContaining({
        code: "odd and even",
        severity: "note",
        slots: [1, 2],
        says: "Drums lies in slots 2 and 3: a mixer that only links 1 and 2, 3 and 4 and so on can’t make a pair of it.",
        remedy: "If yours is one of them, begin the pair in an odd slot.",
      }),
    ]);
    expect(flags([null, null, DL, DR])).toEqual([]);
  });
});

describe("a pair folded to mono", () => {
  it("needs one slot only", () => {
    expect(flags([DL, DR], { folded: true })).toEqual([
      expect.objectContaining({
        code: "spare leg",
        severity: "note",
        slots: [0, 1],
        sums: ["Drums"],
        says: "Drums is folded to mono: slots 1 and 2 carry the same.",
        remedy: "One slot is enough: free slot 2.",
        fix: [{ edit: "slot", index: 1, to: null }],
      }),
    ]);
    expect(flags([DL], { folded: true })).toEqual([]);
  });

  it("is another matter than a source of the same id", () => {
    const s = setup(
      [source("Drums", { channels: 2 })],
      [sum("Drums", [], { folded: true, reversed: true })],
      [direct("Drums", "left"), direct("Drums", "right")],
    );
    expect(pairFlags(s)).toEqual([]);
  });
});
