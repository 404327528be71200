import { describe, expect, it } from "vitest";
import { applyMove, applyMoves, groupName } from "../../../src/core/patch/apply";
import { direct, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const VOX = source("Vox", { kind: "voice" });
const KEYS = source("Keys", { kind: "keys", channels: 2 });

describe("a move of the patch", () => {
  it("folds a pair: one leg is left in the slot that is kept, and the sum is mono, plain", () => {
    const drums = sum("Drums", ["Kick"], { reversed: true, folded: true });
    const other = sum("Other", [], { reversed: true, folded: true });
    const s = setup(
      [KICK],
      [other, drums],
      [null, leg("Drums", "right", { trim: -3 }), leg("Drums", "left")],
    );
    const after = applyMove(s, { move: "fold", of: "sum", id: "Drums", keeps: 1, slots: [1, 2] });
    expect(after.monitor.slots).toEqual([null, leg("Drums", "left", { trim: -3 }), null]);
    expect(after.sums).toEqual([other, { ...drums, stereo: false, reversed: false, folded: false }]);
  });

  it("folds a source of two channels: both come in by the slot that is kept, sums stay", () => {
    // A sum of the same id shows that it is not taken for one.
    const s = setup(
      [KEYS],
      [sum("Keys", [])],
      [direct("Keys", "left"), direct("Keys", "right", { trim: 2 })],
    );
    const after = applyMove(s, { move: "fold", of: "source", id: "Keys", keeps: 1, slots: [0, 1] });
    expect(after.monitor.slots).toEqual([null, direct("Keys", "both", { trim: 2 })]);
    expect(after.sums).toEqual(s.sums);
  });

  it("takes a source into a sum at the trim of its first slot that is on, once", () => {
    const drums = sum("Drums", ["Vox", "Kick"]);
    const slots = [
      leg("Vox", "left", { trim: 9 }),
      direct("Vox", "both", { on: false, trim: -1 }),
      direct("Vox", "both", { trim: -2.5 }),
    ];
    const after = applyMove(setup([KICK, VOX], [drums], slots), {
      move: "into",
      source: "Vox",
      sum: "Drums",
      slots: [0, 1, 2],
    });
    expect(after.monitor.slots).toEqual([null, null, null]);
    expect(after.sums[0]?.sends).toEqual([
      { source: "Kick", level: 0, pan: null },
      { source: "Vox", level: -2.5, pan: null },
    ]);
  });

  it("takes a source that is off everywhere into a sum with its send off", () => {
    const s = setup([VOX], [sum("Drums", [])], [direct("Vox", "both", { on: false })]);
    const after = applyMove(s, { move: "into", source: "Vox", sum: "Drums", slots: [0, 5] });
    expect(after.sums[0]?.sends).toEqual([{ source: "Vox", level: null, pan: null }]);
  });

  it("puts sources together into a new mono sum in the first of their slots", () => {
    const s = setup(
      [KICK, VOX],
      [sum("m2", []), sum("Drums", [])],
      [null, direct("Vox"), direct("Kick", "both", { trim: 1 })],
    );
    const after = applyMove(s, { move: "together", sources: ["Kick", "Vox"], slots: [2, 1] });
    expect(after.monitor.slots).toEqual([null, leg("m3", "left"), null]);
    expect(after.sums.at(-1)).toMatchObject({
      id: "m3",
      name: "Drums 2",
      stereo: false,
      sends: [
        { source: "Kick", level: 1, pan: null },
        { source: "Vox", level: 0, pan: null },
      ],
    });
  });

  it("frees, and what lay beyond the count moves up after all of them", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), direct("Kick"), direct("Vox")], 2);
    const after = applyMoves(s, [{ move: "free", why: "copy", of: "source", id: "Kick", slots: [1] }]);
    expect(after.monitor.slots).toEqual([direct("Kick"), direct("Vox")]);
  });
});

describe("what a new sum is called", () => {
  it("is the family of its first source, or plainly a sum", () => {
    const talk = source("Talk", { kind: "talk" });
    expect(groupName(setup([VOX, KICK], [], []), ["Kick"])).toBe("Drums");
    expect(groupName(setup([VOX, KICK], [], []), ["Kick", "Vox"])).toBe("Voices");
    expect(groupName(setup([talk], [], []), ["Talk"])).toBe("Sum");
  });
});
