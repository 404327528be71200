import { describe, expect, it } from "vitest";
import { applyMove, applyMoves, groupName } from "../../../src/core/inputs/apply";
import { bus, channel, direct, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const VOX = channel("Vox", { kind: "vocal" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });

describe("a move of the patch", () => {
  it("folds a pair: one side is left in the input that is kept, and the bus is mono, plain", () => {
    const drums = bus("Drums", ["Kick"], { swapped: true, folded: true });
    const other = bus("Other", [], { swapped: true, folded: true });
    const s = setup(
      [KICK],
      [other, drums],
      [null, side("Drums", "right", { trim: -3 }), side("Drums", "left")],
    );
    const after = applyMove(s, { move: "fold", of: "bus", id: "Drums", keeps: 1, inputs: [1, 2] });
    expect(after.monitor.inputs).toEqual([null, side("Drums", "left", { trim: -3 }), null]);
    expect(after.buses).toEqual([other, { ...drums, stereo: false, swapped: false, folded: false }]);
  });

  it("folds a channel of two channels: both come in by the input that is kept, sums stay", () => {
    // A sum of the same id shows that it is not taken for one.
    const s = setup(
      [KEYS],
      [bus("Keys", [])],
      [direct("Keys", "left"), direct("Keys", "right", { trim: 2 })],
    );
    const after = applyMove(s, { move: "fold", of: "channel", id: "Keys", keeps: 1, inputs: [0, 1] });
    expect(after.monitor.inputs).toEqual([null, direct("Keys", "both", { trim: 2 })]);
    expect(after.buses).toEqual(s.buses);
  });

  it("takes a channel into a bus at the trim of its first input that is on, once", () => {
    const drums = bus("Drums", ["Vox", "Kick"]);
    const inputs = [
      side("Vox", "left", { trim: 9 }),
      direct("Vox", "both", { port: null, on: false, trim: -1 }),
      direct("Vox", "both", { trim: -2.5 }),
    ];
    const after = applyMove(setup([KICK, VOX], [drums], inputs), {
      move: "into",
      channel: "Vox",
      bus: "Drums",
      inputs: [0, 1, 2],
    });
    expect(after.monitor.inputs).toEqual([null, null, null]);
    expect(after.buses[0]?.sends).toEqual([
      { channel: "Kick", on: true, level: 0, tap: "post-fader" as const, pan: null },
      { channel: "Vox", on: true, level: -2.5, tap: "post-fader" as const, pan: null },
    ]);
  });

  it("takes a channel that is off everywhere into a bus with its send off", () => {
    const s = setup([VOX], [bus("Drums", [])], [direct("Vox", "both", { on: false })]);
    const after = applyMove(s, { move: "into", channel: "Vox", bus: "Drums", inputs: [0, 5] });
    expect(after.buses[0]?.sends).toEqual([
      { channel: "Vox", on: true, level: null, tap: "post-fader" as const, pan: null },
    ]);
  });

  it("puts channels together into a new mono bus in the first of their inputs", () => {
    const s = setup(
      [KICK, VOX],
      [bus("m2", []), bus("Drums", [])],
      [null, direct("Vox"), direct("Kick", "both", { trim: 1 })],
    );
    const after = applyMove(s, { move: "together", channels: ["Kick", "Vox"], inputs: [2, 1] });
    expect(after.monitor.inputs).toEqual([null, side("m3", "left"), null]);
    expect(after.buses.at(-1)).toMatchObject({
      id: "m3",
      name: "Drums 2",
      stereo: false,
      sends: [
        { channel: "Kick", on: true, level: 1, tap: "post-fader" as const, pan: null },
        { channel: "Vox", on: true, level: 0, tap: "post-fader" as const, pan: null },
      ],
    });
  });

  it("frees, and what lay beyond the count moves up after all of them", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), direct("Kick"), direct("Vox")], 2);
    const after = applyMoves(s, [{ move: "free", why: "copy", of: "channel", id: "Kick", inputs: [1] }]);
    expect(after.monitor.inputs).toEqual([direct("Kick"), direct("Vox")]);
  });
});

describe("what a new bus is called", () => {
  it("is the family of its first channel, or plainly a bus", () => {
    const talk = channel("Talk", { kind: "talkback" });
    expect(groupName(setup([VOX, KICK], [], []), ["Kick"])).toBe("Drums");
    expect(groupName(setup([VOX, KICK], [], []), ["Kick", "Vox"])).toBe("Vocals");
    expect(groupName(setup([talk], [], []), ["Talk"])).toBe("Bus");
  });
});
