import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { patchFlags } from "../../../src/core/patch/checks";
import { applyEdits, type FlagCode, type PatchFlag } from "../../../src/core/patch/flag";
import { TAP_ADVICE } from "../../../src/core/patch/taps";
import { heardTwice } from "../../../src/core/patch/twice";
import type { Setup, TapPoint } from "../../../src/core/setup";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { expectNear, printed } from "../../near";
import { anySetup, direct, leg, listener, setup, source, sum } from "./setups";

const find = (s: Setup, code: FlagCode): PatchFlag[] => patchFlags(s).filter((f) => f.code === code);

/** The one flag of a code, and none any more once its fix is made. */
const fixed = (s: Setup, code: FlagCode): PatchFlag => {
  const [flag, ...others] = find(s, code);
  expect(flag, code).toBeDefined();
  expect(others).toEqual([]);
  expect(flag?.fix, `${code} has a fix`).toBeDefined();
  expect(find(applyEdits(s, flag?.fix ?? []), code)).toEqual([]);
  return flag as PatchFlag;
};

const KICK = source("Kick", { kind: "drum" });
const VOX = source("Vox", { kind: "voice" });
const KEYS = source("Keys", { kind: "keys", channels: 2 });
const drums = (more = {}) => sum("Drums", ["Kick"], more);
const BOTH = [leg("Drums", "left"), leg("Drums", "right")] as const;

describe("the example's patch", () => {
  it("has what it was given: a feed that is off and nothing else", () => {
    expect(patchFlags(exampleSetup()).map((f) => [f.code, f.slots])).toEqual([["off", [9 + 1]]]);
  });
});

describe("heard twice", () => {
  const rise = (s: Setup) => heardTwice(s)[0]?.rise ?? [];

  // Two equal signals in phase: 6.02 dB, the printed value of every handbook.
  it("is +6.02 dB for a mono sum at the same level", () => {
    const s = setup(
      [VOX],
      [sum("Voices", ["Vox"], { stereo: false })],
      [leg("Voices", "left"), direct("Vox")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
    const flag = fixed(s, "heard twice");
    expect(flag).toMatchObject({ severity: "warn", slots: [0, 1], sources: ["Vox"], sums: ["Voices"] });
    expect(flag.says).toBe(
      "Vox comes in twice: by slot 2 and inside Voices (slot 1). With both up it changes by +6.02 dB.",
    );
  });

  // sin/cos centre is −3.0103 dB (facts of the trade): 20 lg(1 + 10^(−3.0103/20)) = 4.65.
  it("is +4.65 dB for a centre source in a constant-power pair", () => {
    for (const ear of rise(setup([KICK], [drums()], [...BOTH, direct("Kick")]))) {
      expectNear(ear, 20 * Math.log10(1 + 10 ** (-3.0103 / 20)), 1e-5);
    }
  });

  it("reads send and trim: −6.0206 dB on either side of the way gives 20 lg 1.5", () => {
    const half = 20 * Math.log10(0.5);
    const mono = (send: number, trim: number) => {
      const s = sum("Voices", [], { stereo: false, sends: [{ source: "Vox", level: send, pan: null }] });
      return rise(setup([VOX], [s], [leg("Voices", "left"), direct("Vox", "both", { trim })]));
    };
    for (const ear of [...mono(half, 0), ...mono(0, half)]) expectNear(ear, 20 * Math.log10(1.5), 1e-12);
  });

  it("cancels where the leg's polarity is switched, but not where the source's own is", () => {
    const inverted = drums({ stereo: false, legInverted: [true, true] });
    expect(rise(setup([KICK], [inverted], [leg("Drums", "left"), direct("Kick")]))).toEqual([
      -Infinity,
      -Infinity,
    ]);
    const s = setup(
      [{ ...KICK, inverted: true }],
      [drums({ stereo: false })],
      [leg("Drums", "left"), direct("Kick")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
  });

  it("follows a reversed pair: hard left in the desk is the right ear", () => {
    const s = setup(
      [{ ...KICK, pan: -1 }],
      [drums()],
      [leg("Drums", "right"), leg("Drums", "left"), direct("Kick")],
    );
    const [left, right] = rise(s);
    expectNear(left ?? null, 0, 1e-12);
    expectNear(right ?? null, 6.02, printed(2));
  });

  it("puts the channels of a stereo source into their own ears", () => {
    const s = setup(
      [KEYS],
      [sum("Band", ["Keys"])],
      [leg("Band", "left"), leg("Band", "right"), direct("Keys", "left"), direct("Keys", "right")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
  });

  it("is nothing where a slot is off, the send is off, the source is muted or the sum has no slot", () => {
    expect(heardTwice(setup([KICK], [drums()], [...BOTH, direct("Kick", "both", { on: false })]))).toEqual(
      [],
    );
    expect(heardTwice(setup([{ ...KICK, muted: true }], [drums()], [...BOTH, direct("Kick")]))).toEqual([]);
    expect(heardTwice(setup([KICK], [drums()], [direct("Kick")]))).toEqual([]);
    const off = drums({ sends: [{ source: "Kick", level: null, pan: null }] });
    expect(heardTwice(setup([KICK], [off], [...BOTH, direct("Kick")]))).toEqual([]);
  });
});

describe("pairs", () => {
  it("reversed without being meant, and meant but straight, are faults with the slots exchanged", () => {
    const turned = setup([KICK], [drums()], [BOTH[1], BOTH[0]]);
    expect(fixed(turned, "reversed")).toMatchObject({ severity: "fault", slots: [0, 1], sums: ["Drums"] });
    expect(find({ ...turned, sums: [drums({ reversed: true })] }, "reversed")).toEqual([]);
    const straight = setup([KICK], [drums({ reversed: true })], BOTH);
    expect(fixed(straight, "straight").says).toContain("meant to be patched in reverse order");
  });

  it("keep each slot's trim when they are exchanged", () => {
    const s = setup([KICK], [drums()], [{ ...BOTH[1], trim: -3 }, BOTH[0]]);
    const after = applyEdits(s, find(s, "reversed")[0]?.fix ?? []);
    expect(after.monitor.slots).toEqual([{ ...BOTH[0], trim: -3 }, BOTH[1]]);
  });

  it("split over slots that are not neighbours are put together", () => {
    const s = setup([KICK, VOX], [drums()], [BOTH[0], direct("Vox"), BOTH[1]]);
    expect(fixed(s, "split").slots).toEqual([0, 2]);
    const full = setup([KICK, VOX], [drums()], [BOTH[0], direct("Vox"), BOTH[1]], 3);
    expect(find(full, "split")[0]?.fix).toBeUndefined();
  });

  it("with one side only are completed beside it, unless the sum is folded", () => {
    expect(fixed(setup([KICK], [drums()], [BOTH[0]]), "only one side").says).toBe(
      "Only the left leg of Drums is patched: what is on the other side is missing.",
    );
    expect(find(setup([KICK], [drums({ folded: true })], [BOTH[0]]), "only one side")).toEqual([]);
    expect(find(setup([KICK], [drums({ folded: true })], BOTH), "spare leg")).toHaveLength(1);
    expect(fixed(setup([KEYS], [], [direct("Keys", "right")]), "only one side").remedy).toContain(
      "left channel",
    );
    expect(find(setup([KEYS], [], [direct("Keys")]), "only one side")).toEqual([]);
  });

  it("of a stereo source are checked alike", () => {
    fixed(setup([KEYS], [], [direct("Keys", "right"), direct("Keys", "left")]), "reversed");
    fixed(setup([KEYS], [], [direct("Keys", "left"), null, direct("Keys", "right")]), "split");
  });
});

describe("tap points", () => {
  const flagOf = (kind: keyof typeof TAP_ADVICE, tap: TapPoint) =>
    find(setup([source("x", { kind })], [], [direct("x", "both", { tap })]), "tap point");

  it("that do not fit are told with the reason and put right", () => {
    const s = setup([VOX], [], [direct("Vox", "both", { tap: "before-eq" })]);
    expect(fixed(s, "tap point").says).toContain("a voice before its processing");
    const bass = setup([source("b", { kind: "bass" })], [], [direct("b", "both", { tap: "after-fader" })]);
    expect(fixed(bass, "tap point").says).toContain("an instrument after the fader");
    expect(flagOf("drum", "before-filter")[0]?.says).toContain("rumble");
  });

  it("after the fader fit no kind, and the better one always fits", () => {
    for (const kind of Object.keys(TAP_ADVICE) as (keyof typeof TAP_ADVICE)[]) {
      expect(flagOf(kind, "after-fader"), kind).toHaveLength(1);
      expect(flagOf(kind, TAP_ADVICE[kind].better), kind).toEqual([]);
    }
  });
});

describe("what is missing or too much", () => {
  it("more feeds than slots, and what lies beyond while others are free", () => {
    const s = setup([KICK, VOX, KEYS], [], [direct("Kick"), direct("Vox"), direct("Keys")], 2);
    expect(find(s, "over")[0]).toMatchObject({
      severity: "fault",
      slots: [2],
      says: "3 feeds for 2 slots: 1 too many.",
    });
    const room = setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(fixed(room, "over").says).toBe("Slot 3 is beyond the 2 there are.");
  });

  it("the same thing patched twice", () => {
    const s = setup([VOX], [], [direct("Vox", "both", { on: false }), direct("Vox")]);
    expect(fixed(s, "patched twice").remedy).toBe("Free slot 1: nothing is lost.");
    const loud = setup([VOX], [], [direct("Vox"), direct("Vox")]);
    expect(find(loud, "patched twice")[0]?.says).toContain("+6.02 dB louder");
    const mono = setup([KEYS], [], [direct("Keys"), direct("Keys", "left"), direct("Keys", "right")]);
    expect(fixed(mono, "patched twice").slots).toEqual([0, 1]);
  });

  it("feeds that are off or muted", () => {
    expect(fixed(setup([VOX], [], [direct("Vox", "both", { on: false })]), "off").slots).toEqual([0]);
    expect(find(setup([{ ...VOX, muted: true }], [], [direct("Vox")]), "muted")).toHaveLength(1);
  });

  it("unfed sources and listeners", () => {
    const s = setup([KICK, VOX, KEYS], [drums()], [...BOTH, direct("Vox")]);
    expect(fixed(s, "unfed source").sources).toEqual(["Keys"]);
    const full = { ...s, monitor: { ...s.monitor, slotCount: 4 } };
    expect(find(full, "unfed source")[0]?.fix).toBeUndefined();
    const none = setup([KICK, VOX], [drums()], [direct("Vox")], 16, [
      listener("l2", { kind: "drummer", sum: "Drums" }),
      listener("l3"),
    ]);
    expect(find(none, "unfed listener").map((f) => [f.listeners, f.severity])).toEqual([
      [["l2"], "fault"],
      [["l3"], "note"],
    ]);
  });

  it("sums that are patched with nothing in them, and names that say nothing", () => {
    const s = setup([VOX, { ...KICK, name: " vox" }], [drums({ sends: [] })], [...BOTH, direct("Vox")]);
    expect(find(s, "empty sum")).toHaveLength(1);
    expect(find(s, "same name")[0]?.sources).toEqual(["Vox", "Kick"]);
  });

  it("nothing fed at all is one fault, not one for each source", () => {
    expect(patchFlags(blankSetup()).map((f) => f.code)).toEqual(["nothing fed"]);
    const off = setup([VOX, KICK], [], [direct("Vox", "both", { on: false })]);
    expect(patchFlags(off).map((f) => f.code)).toEqual(["nothing fed", "off"]);
  });
});

describe("on any setup", () => {
  it("every flag is a sentence with a remedy, points at slots that are there and never at NaN", () => {
    fc.assert(
      fc.property(anySetup(8, 14), (s) => {
        for (const f of patchFlags(s)) {
          expect(f.says).toMatch(/^\S.*\.$/s);
          expect(f.says + f.remedy).not.toMatch(/NaN|undefined|null| {2}/);
          expect(f.remedy).toMatch(/\.$/);
          for (const i of f.slots) expect(s.monitor.slots[i]).not.toBeNull();
          expect(f.fix).not.toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("the fixes of “off”, “tap point”, “patched twice” and “heard twice” put their own flag right", () => {
    fc.assert(
      fc.property(anySetup(6, 10), (s) => {
        for (const code of [
          "off",
          "tap point",
          "patched twice",
          "heard twice",
          "reversed",
          "straight",
        ] as const) {
          for (const f of find(s, code)) {
            const left = find(applyEdits(s, f.fix ?? []), code);
            const same = left.filter((g) => g.says === f.says);
            expect(same).toEqual([]);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
