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

/** What is wrong, and with what; not in which slots, which a fix may change. */
const faults = (s: Setup): string[] =>
  patchFlags(s)
    .filter((f) => f.severity === "fault")
    .map(({ code, sources, sums, listeners }) => JSON.stringify([code, sources, sums, listeners]));

/** Faults that a fix makes; none are told while nothing is fed. */
const made = (s: Setup, { fix = [] }: PatchFlag): string[] => {
  const before = faults(s);
  if (before.some((f) => f.includes("nothing fed"))) return [];
  return faults(applyEdits(s, fix)).filter((f) => !before.includes(f));
};

/** The one flag of a code, and none any more once its fix is made, which makes no new fault. */
const fixed = (s: Setup, code: FlagCode): PatchFlag => {
  const [flag, ...others] = find(s, code);
  expect(flag, code).toBeDefined();
  expect(others).toEqual([]);
  expect(flag?.fix, `${code} has a fix`).toBeDefined();
  expect(find(applyEdits(s, flag?.fix ?? []), code)).toEqual([]);
  expect(made(s, flag as PatchFlag)).toEqual([]);
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

  it("follows a reversed pair: hard left at the console is the right ear", () => {
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

  it("says one change for both ears where it is the same but for rounding, and takes both channels away", () => {
    // 7 dB, and 2 + 5 dB: the same but for the last bits of a double.
    const pair = sum("Band", [], {
      sends: [{ source: "Keys", level: 0, pan: null }],
      legTrim: [7, 2],
    });
    const slots = [
      leg("Band", "left"),
      leg("Band", "right", { trim: 5 }),
      direct("Keys", "left"),
      direct("Keys", "right"),
    ];
    const s = setup([KEYS], [pair], slots);
    const [left, right] = rise(s);
    expect(left).not.toBe(right);
    expect(fixed(s, "heard twice").says).toMatch(/ With both up it changes by \+\d\.\d\d dB\.$/);
    const half = setup(
      [KEYS],
      [sum("Band", ["Keys"])],
      [...slots.slice(0, 3), direct("Keys", "right", { on: false })],
    );
    expect(applyEdits(half, fixed(half, "heard twice").fix ?? []).monitor.slots.slice(2)).toEqual([
      null,
      null,
    ]);
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

  it("with one side only get the other where it belongs, on either side and for either meaning", () => {
    const slotsOf = (s: Setup) =>
      applyEdits(s, fixed(s, "only one side").fix ?? []).monitor.slots.map((slot) =>
        slot?.feed.kind === "leg" ? slot.feed.leg : (slot?.feed.channel ?? null),
      );
    const alone = (side: "left" | "right", reversed: boolean) =>
      setup([KICK], [drums({ reversed })], [null, null, null, leg("Drums", side)]);
    expect(slotsOf(alone("right", false))).toEqual([null, null, "left", "right"]);
    expect(slotsOf(alone("left", false))).toEqual([null, null, null, "left", "right"]);
    expect(slotsOf(alone("right", true))).toEqual([null, null, null, "right", "left"]);
    expect(slotsOf(alone("left", true))).toEqual([null, null, "right", "left"]);
    expect(slotsOf(setup([KEYS], [], [null, direct("Keys", "right")]))).toEqual(["left", "right"]);
    // Where it belongs there is no room: both go where there is, if there is.
    expect(slotsOf(setup([KICK], [drums()], [BOTH[1]]))).toEqual(["left", "right"]);
    expect(slotsOf(setup([KICK], [drums()], [direct("Kick"), BOTH[1]]))).toEqual(["both", "left", "right"]);
    expect(slotsOf(setup([KICK], [drums()], [null, null, BOTH[0], direct("Kick")], 4)).slice(0, 2)).toEqual([
      "left",
      "right",
    ]);
    const full = setup([KICK], [drums()], [direct("Kick"), BOTH[1], null], 3);
    expect(slotsOf(full)).toEqual(["both", "left", "right"]);
    const none = setup([KICK], [drums()], [direct("Kick"), BOTH[1]], 2);
    expect(find(none, "only one side")[0]?.fix).toBeUndefined();
  });

  it("split and meant to be reversed are put together in that order", () => {
    const s = setup([KICK, VOX], [drums({ reversed: true })], [BOTH[0], direct("Vox"), BOTH[1]]);
    const after = applyEdits(s, fixed(s, "split").fix ?? []);
    expect(after.monitor.slots.slice(2)).toEqual([BOTH[1], BOTH[0]]);
  });

  it("split with one leg beyond the count come together in order, not just where there is room", () => {
    const s = setup([KICK], [drums()], [null, BOTH[0], BOTH[1]], 2);
    expect(fixed(s, "over").fix).toBeDefined();
    // A copy stands in between: the one that counts then is put in order.
    const copies = [null, null, BOTH[0], BOTH[1], BOTH[1]];
    const thrice = setup([KICK], [drums()], copies, 3);
    expect(made(thrice, find(thrice, "over")[0] as PatchFlag)).toEqual([]);
    const turned = setup([KICK, VOX], [drums()], [null, BOTH[0], direct("Vox"), BOTH[1]], 3);
    expect(applyEdits(turned, fixed(turned, "over").fix ?? []).monitor.slots.slice(0, 2)).toEqual(BOTH);
  });

  it("lie as those legs do that are on", () => {
    const off = leg("Drums", "left", { on: false });
    const s = setup([KICK], [drums()], [off, null, BOTH[1], BOTH[0]]);
    expect(find(s, "reversed")[0]?.slots).toEqual([2, 3]);
    expect(find(s, "off")).toEqual([]);
    expect(find(s, "patched twice")[0]?.says).toBe(
      "Drums is patched twice, in slots 1 and 4. Slot 1 is off.",
    );
    fixed(s, "patched twice");
  });

  it("folded keep the leg that is on", () => {
    const slots = [leg("Drums", "left", { on: false }), BOTH[1]];
    const s = setup([KICK], [drums({ folded: true })], slots);
    expect(fixed(s, "spare leg").remedy).toBe("One slot is enough: free slot 1.");
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
    expect(flagOf("voice", "after-fader")[0]?.says).toContain("in the singer’s ears");
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
    expect(fixed(s, "patched twice")).toMatchObject({
      says: "Vox is patched twice, in slots 1 and 2. Slot 1 is off.",
      remedy: "Free slot 1: nothing is lost.",
    });
    const loud = setup([VOX], [], [direct("Vox"), direct("Vox")]);
    expect(find(loud, "patched twice")[0]?.says).toContain("+6.02 dB louder");
    const mono = setup([KEYS], [], [direct("Keys"), direct("Keys", "left"), direct("Keys", "right")]);
    expect(fixed(mono, "patched twice").slots).toEqual([0, 1]);
    const off = { on: false };
    const asOne = setup(
      [KEYS],
      [],
      [direct("Keys"), direct("Keys", "left", off), direct("Keys", "right", off)],
    );
    expect(find(asOne, "patched twice")).toEqual([]);
  });

  it("feeds that are off or muted", () => {
    expect(fixed(setup([VOX], [], [direct("Vox", "both", { on: false })]), "off").slots).toEqual([0]);
    expect(find(setup([{ ...VOX, muted: true }], [], [direct("Vox")]), "muted")).toHaveLength(1);
    const once = setup([VOX], [], [direct("Vox", "both", { on: false }), direct("Vox")]);
    expect(find(once, "off")).toEqual([]);
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

  it("what has no name is called so", () => {
    const s = setup(
      [
        { ...VOX, name: "" },
        { ...KICK, name: "" },
      ],
      [drums({ name: "" })],
      [BOTH[0], direct("Vox", "both", { tap: "before-eq" })],
    );
    const says = patchFlags(s).map((f) => f.says);
    expect(says).toContain("2 sources have no name.");
    expect(says).toContain(
      "Only the left leg of Unnamed sum is patched: what is on the other side is missing.",
    );
    expect(says.some((t) => t.startsWith("Unnamed source in slot 2 is taken before EQ"))).toBe(true);
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

  it("every fix puts its own flag right and makes no new fault", () => {
    const met = new Set<FlagCode>();
    fc.assert(
      fc.property(anySetup(6, 10), (s) => {
        for (const f of patchFlags(s)) {
          if (!f.fix) continue;
          met.add(f.code);
          const left = find(applyEdits(s, f.fix), f.code);
          expect(left.filter((g) => g.says === f.says && g.sources[0] === f.sources[0])).toEqual([]);
          expect(made(s, f), `${f.says} ${f.remedy}`).toEqual([]);
        }
      }),
      { numRuns: 1000 },
    );
    expect([...met].sort()).toEqual([
      "heard twice",
      "off",
      "only one side",
      "over",
      "patched twice",
      "reversed",
      "spare leg",
      "split",
      "straight",
      "tap point",
      "unfed source",
    ]);
  });
});
