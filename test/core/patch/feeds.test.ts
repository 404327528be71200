import { describe, expect, it } from "vitest";
import { copyFlags, overFlags, silentFlags, tapFlags, twiceFlags } from "../../../src/core/patch/feeds";
import { slotsLeft } from "../../../src/core/patch/usage";
import { direct, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const VOX = source("Vox", { kind: "voice" });
const BASS = source("Bass", { kind: "bass" });
const KEYS = source("Keys", { kind: "keys", channels: 2 });

describe("a feed beyond the last slot", () => {
  it("is moved into the free slot, and only that is changed", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(overFlags(s)).toEqual([
      {
        code: "over",
        severity: "fault",
        slots: [2],
        sources: [],
        sums: [],
        listeners: [],
        says: "Slot 3 is beyond the 2 there are.",
        remedy: "Move it into free slots: 2 is free.",
        fix: [
          { edit: "slot", index: 1, to: direct("Vox") },
          { edit: "slot", index: 2, to: null },
        ],
      },
    ]);
  });

  it("wants one of the free slots, which is then not left for a repair", () => {
    const s = setup([KICK, VOX, BASS], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(slotsLeft(s.monitor)).toBe(0);
    expect(slotsLeft({ ...s.monitor, slotCount: 3 })).toBe(1);
    expect(slotsLeft({ ...s.monitor, slotCount: 1 })).toBe(0);
  });

  it("is told in the plural where there are several", () => {
    const s = setup([KICK, VOX], [], [null, null, null, direct("Kick"), direct("Vox")], 3);
    expect(overFlags(s)[0]).toMatchObject({
      says: "Slots 4 and 5 are beyond the 3 there are.",
      remedy: "Move them into free slots: 1, 2 and 3 are free.",
    });
  });

  it("has no fix of its own where there is no room", () => {
    const s = setup([KICK, VOX, BASS], [], [direct("Kick"), direct("Vox"), direct("Bass")], 2);
    const [flag] = overFlags(s);
    expect(flag).toMatchObject({ slots: [2], says: "3 feeds for 2 slots: 1 too many." });
    expect(flag?.fix).toBeUndefined();
  });
});

describe("a source that comes in twice", () => {
  const twice = (sends: number, pan: number) =>
    twiceFlags(
      setup(
        [{ ...VOX, pan }],
        [sum("All", [], { sends: [{ source: "Vox", level: sends, pan: null }] })],
        [leg("All", "left"), leg("All", "right"), direct("Vox")],
      ),
    )[0];

  it("is told once where both ears change alike, else ear by ear", () => {
    // sin/cos centre, −3.01 dB a leg: 20 lg (1 + 10^(−3.01/20)) = 4.65; hard right: 20 lg 2 = 6.02 right only.
    expect(twice(0, 0)?.says).toMatch(/With both up it changes by \+4\.65 dB\.$/);
    expect(twice(0, 1)?.says).toMatch(/With both up it changes by 0\.00 dB left and \+6\.02 dB right\.$/);
    expect(twice(0, 1)).toMatchObject({
      severity: "warn",
      slots: [0, 1, 2],
      sources: ["Vox"],
      sums: ["All"],
      remedy: "Free slot 3, or take Vox out of All, if it is not meant.",
      fix: [{ edit: "slot", index: 2, to: null }],
    });
  });
});

describe("an ear that hears neither", () => {
  it("is left out", () => {
    // Balance at hard left: the right channel is silent in the sum, and its own slot is off.
    const keys = { ...KEYS, pan: -1 };
    const own = [direct("Keys", "left"), direct("Keys", "right", { on: false })];
    const [flag] = twiceFlags(
      setup([keys], [sum("All", ["Keys"])], [leg("All", "left"), leg("All", "right"), ...own]),
    );
    expect(flag?.says).toMatch(/With both up it changes by \+6\.02 dB left\.$/);
  });
});

describe("the same thing in two slots", () => {
  it("is told for a sum too, but not for one that was folded on purpose", () => {
    const folded = (id: string, yes: boolean) => sum(id, ["Kick"], { folded: yes });
    const slots = [leg("All", "left"), leg("All", "left"), leg("All", "right")];
    expect(copyFlags(setup([KICK], [folded("Other", true), folded("All", false)], slots))).toEqual([
      expect.objectContaining({
        severity: "warn",
        slots: [0, 1],
        sums: ["All"],
        says: "All is patched twice, in slots 1 and 2. With both up it is +6.02 dB louder.",
        remedy: "Free slot 2: nothing is lost.",
      }),
    ]);
    expect(copyFlags(setup([KICK], [folded("All", true), folded("Other", false)], slots))).toEqual([]);
    // A source of the same id as a folded sum is no sum.
    expect(copyFlags(setup([KICK], [folded("Kick", true)], [direct("Kick"), direct("Kick")]))).toHaveLength(
      1,
    );
  });

  it("says nothing of loudness where one of them is off", () => {
    const s = (first: boolean, second: boolean) =>
      copyFlags(
        setup([KICK], [], [direct("Kick", "both", { on: first }), direct("Kick", "both", { on: second })]),
      )[0]?.says;
    expect(s(true, false)).toBe("Kick is patched twice, in slots 1 and 2. Slot 2 is off.");
    expect(s(false, false)).toBe("Kick is patched twice, in slots 1 and 2. Slot 2 is off.");
  });
});

describe("a silent feed", () => {
  it("is told for the muted source only, in the singular and the plural", () => {
    const muted = { ...KEYS, muted: true };
    const slots = [direct("Keys", "left"), direct("Keys", "right"), direct("Kick")];
    expect(silentFlags(setup([KICK, muted], [], slots))).toEqual([
      expect.objectContaining({
        code: "muted",
        severity: "note",
        slots: [0, 1],
        sources: ["Keys"],
        says: "Keys is muted: slots 1 and 2 are silent.",
      }),
    ]);
    expect(silentFlags(setup([{ ...KICK, muted: true }, KEYS], [], [direct("Kick")]))[0]?.says).toBe(
      "Kick is muted: slot 1 is silent.",
    );
    // A sum of the same id as a muted source is no source.
    const sameId = setup([{ ...KICK, muted: true }], [sum("Kick", [])], [leg("Kick", "left")]);
    expect(silentFlags(sameId)).toEqual([]);
  });

  it("is told for the slot that is off", () => {
    const [flag] = silentFlags(
      setup([KICK, VOX], [], [direct("Vox"), direct("Kick", "both", { on: false })]),
    );
    expect(flag).toMatchObject({
      code: "off",
      severity: "warn",
      slots: [1],
      sources: ["Kick"],
      says: "Kick in slot 2 is off: nobody hears it there.",
      fix: [{ edit: "slot", index: 1, to: direct("Kick") }],
    });
  });
});

describe("a tap point that does not fit", () => {
  it("is told with its slot and its source, and put where it fits", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), direct("Vox", "both", { tap: "before-filter" })]);
    const [flag, ...others] = tapFlags(s);
    expect(others).toEqual([]);
    expect(flag).toMatchObject({ code: "tap point", slots: [1], sources: ["Vox"] });
    expect(flag?.says).toMatch(/^Vox in slot 2 is taken /);
  });

  it("is nothing where the source is gone, or the slot takes a leg", () => {
    expect(tapFlags(setup([], [sum("All", [])], [direct("Gone"), leg("All", "left"), null]))).toEqual([]);
  });
});
