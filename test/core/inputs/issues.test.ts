import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits, type Issue, type IssueCode } from "../../../src/core/inputs/issue";
import { patchIssues } from "../../../src/core/inputs/issues";
import { TAP_ADVICE } from "../../../src/core/inputs/taps";
import { heardTwice } from "../../../src/core/inputs/twice";
import type { Setup, TapPoint } from "../../../src/core/model/setup";
import { blankSetup } from "../../../src/document/blank";
import { exampleSetup } from "../../../src/document/example";
import { describeIssue } from "../../../src/text/issues";
import { expectNear, printed } from "../../near";
import { anySetup, bus, channel, direct, listener, setup, side, tapped } from "./setups";

type Of<Code extends IssueCode> = Extract<Issue, { code: Code }>;
const find = <Code extends IssueCode>(s: Setup, code: Code): Of<Code>[] =>
  patchIssues(s).filter((i): i is Of<Code> => i.code === code);

/** What is wrong, and with what; not in which inputs, which a fix may change. */
const faults = (s: Setup): string[] =>
  patchIssues(s)
    .filter((f) => f.severity === "fault")
    // Too many, and then only beyond the last input: one fault on its way to none.
    .map(({ code, channels, buses, listeners }) =>
      JSON.stringify([code === "beyond last" ? "too many" : code, channels, buses, listeners]),
    );

/** Faults that a fix makes; none are told while nothing is fed. */
const made = (s: Setup, { fix = [] }: Pick<Issue, "fix">): string[] => {
  const before = faults(s);
  if (before.some((f) => f.includes("nothing fed"))) return [];
  return faults(applyEdits(s, fix)).filter((f) => !before.includes(f));
};

/** The one flag of a code, and none any more once its fix is made, which makes no new fault. */
const fixed = <Code extends IssueCode>(s: Setup, code: Code): Of<Code> => {
  const [flag, ...others] = find(s, code);
  expect(flag, code).toBeDefined();
  expect(others).toEqual([]);
  expect(flag?.fix, `${code} has a fix`).toBeDefined();
  expect(find(applyEdits(s, flag?.fix ?? []), code)).toEqual([]);
  expect(made(s, flag as Issue)).toEqual([]);
  return flag as Of<Code>;
};

const KICK = channel("Kick", { kind: "drum" });
const VOX = channel("Vox", { kind: "vocal" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });
const drums = (more = {}) => bus("Drums", ["Kick"], more);
const BOTH = [side("Drums", "left"), side("Drums", "right")] as const;

describe("the example's patch", () => {
  it("has what it was given: a feed that is off and nothing else", () => {
    expect(patchIssues(exampleSetup()).map((f) => [f.code, f.inputs])).toEqual([["off", [9 + 1]]]);
  });
});

describe("heard twice", () => {
  const rise = (s: Setup) => heardTwice(s)[0]?.rise ?? [];

  // Two equal signals in phase: 6.02 dB, the printed value of every handbook.
  it("is +6.02 dB for a mono bus at the same level", () => {
    const s = setup(
      [VOX],
      [bus("Voices", ["Vox"], { stereo: false })],
      [side("Voices", "left"), direct("Vox")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
    const flag = fixed(s, "heard twice");
    expect(flag).toMatchObject({ severity: "warn", inputs: [0, 1], channels: ["Vox"], buses: ["Voices"] });
    expect(flag.values).toMatchObject({ direct: [1], within: [0] });
    for (const ear of flag.values.rise) expectNear(ear, 6.02, printed(2));
  });

  // sin/cos centre is −3.0103 dB (facts of the trade): 20 lg(1 + 10^(−3.0103/20)) = 4.65.
  it("is +4.65 dB for a centre channel in a constant-power pair", () => {
    for (const ear of rise(setup([KICK], [drums()], [...BOTH, direct("Kick")]))) {
      expectNear(ear, 20 * Math.log10(1 + 10 ** (-3.0103 / 20)), 1e-5);
    }
  });

  it("reads send and trim: −6.0206 dB on either side of the way gives 20 lg 1.5", () => {
    const half = 20 * Math.log10(0.5);
    const mono = (send: number, trim: number) => {
      const s = bus("Voices", [], {
        stereo: false,
        sends: [{ channel: "Vox", on: true, level: send, tap: "post-fader" as const, pan: null }],
      });
      return rise(setup([VOX], [s], [side("Voices", "left"), direct("Vox", "both", { trim })]));
    };
    for (const ear of [...mono(half, 0), ...mono(0, half)]) expectNear(ear, 20 * Math.log10(1.5), 1e-12);
  });

  it("cancels where the side's polarity is switched, but not where the channel's own is", () => {
    const inverted = drums({ sideInverted: [true, true] });
    const left = { ...KICK, pan: -1 };
    expect(rise(setup([left], [inverted], [...BOTH, direct("Kick")]))).toEqual([-Infinity, 0]);
    // A mono bus has no such switch.
    const mono = drums({ stereo: false, sideInverted: [true, true] });
    for (const ear of rise(setup([KICK], [mono], [side("Drums", "left"), direct("Kick")])))
      expectNear(ear, 6.02, printed(2));
    const s = setup(
      [{ ...KICK, inverted: true }],
      [drums({ stereo: false })],
      [side("Drums", "left"), direct("Kick")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
  });

  it("follows a reversed pair: hard left at the console is the right ear", () => {
    const s = setup(
      [{ ...KICK, pan: -1 }],
      [drums()],
      [side("Drums", "right"), side("Drums", "left"), direct("Kick")],
    );
    const [left, right] = rise(s);
    expectNear(left ?? null, 0, 1e-12);
    expectNear(right ?? null, 6.02, printed(2));
  });

  it("puts the channels of a stereo channel into their own ears", () => {
    const s = setup(
      [KEYS],
      [bus("Band", ["Keys"])],
      [side("Band", "left"), side("Band", "right"), direct("Keys", "left"), direct("Keys", "right")],
    );
    for (const ear of rise(s)) expectNear(ear, 6.02, printed(2));
  });

  it("is told by both inputs of a stereo channel, and takes both away", () => {
    // 7 dB, and 2 + 5 dB: the same but for the last bits of a double.
    const pair = bus("Band", [], {
      sends: [{ channel: "Keys", on: true, level: 0, tap: "post-fader" as const, pan: null }],
      sideTrim: [7, 2],
    });
    const inputs = [
      side("Band", "left"),
      side("Band", "right", { trim: 5 }),
      direct("Keys", "left"),
      direct("Keys", "right"),
    ];
    const s = setup([KEYS], [pair], inputs);
    const [left, right] = rise(s);
    expect(left).not.toBe(right);
    expectNear(left ?? null, right ?? Number.NaN, 1e-12);
    const half = setup(
      [KEYS],
      [bus("Band", ["Keys"])],
      [...inputs.slice(0, 3), direct("Keys", "right", { on: false })],
    );
    expect(applyEdits(half, fixed(half, "heard twice").fix ?? []).monitor.inputs.slice(2)).toEqual([
      null,
      null,
    ]);
  });

  it("is nothing where an input is off, the send is off, the channel is muted or the bus has no input", () => {
    expect(heardTwice(setup([KICK], [drums()], [...BOTH, direct("Kick", "both", { on: false })]))).toEqual(
      [],
    );
    expect(heardTwice(setup([{ ...KICK, muted: true }], [drums()], [...BOTH, direct("Kick")]))).toEqual([]);
    expect(heardTwice(setup([KICK], [drums()], [direct("Kick")]))).toEqual([]);
    const off = drums({
      sends: [{ channel: "Kick", on: true, level: null, tap: "post-fader" as const, pan: null }],
    });
    expect(heardTwice(setup([KICK], [off], [...BOTH, direct("Kick")]))).toEqual([]);
  });
});

describe("pairs", () => {
  it("reversed without being meant, and meant but straight, are faults with the inputs exchanged", () => {
    const turned = setup([KICK], [drums()], [BOTH[1], BOTH[0]]);
    expect(fixed(turned, "swapped")).toMatchObject({ severity: "fault", inputs: [0, 1], buses: ["Drums"] });
    expect(find({ ...turned, buses: [drums({ swapped: true })] }, "swapped")).toEqual([]);
    const straight = setup([KICK], [drums({ swapped: true })], BOTH);
    expect(fixed(straight, "normal")).toMatchObject({ severity: "fault", inputs: [0, 1] });
  });

  it("keep each input's trim when they are exchanged", () => {
    const s = setup([KICK], [drums()], [{ ...BOTH[1], trim: -3 }, BOTH[0]]);
    const after = applyEdits(s, find(s, "swapped")[0]?.fix ?? []);
    expect(after.monitor.inputs).toEqual([{ ...BOTH[0], trim: -3 }, BOTH[1]]);
  });

  it("split over inputs that are not neighbours are put together", () => {
    const s = setup([KICK, VOX], [drums()], [BOTH[0], direct("Vox"), BOTH[1]]);
    expect(fixed(s, "split").inputs).toEqual([0, 2]);
    const full = setup([KICK, VOX], [drums()], [BOTH[0], direct("Vox"), BOTH[1]], 3);
    expect(find(full, "split")[0]?.fix).toBeUndefined();
  });

  it("with one side only are completed beside it, unless the bus is folded", () => {
    expect(fixed(setup([KICK], [drums()], [BOTH[0]]), "only one side").values).toEqual({
      missing: "right",
    });
    expect(find(setup([KICK], [drums({ folded: true })], [BOTH[0]]), "only one side")).toEqual([]);
    expect(find(setup([KICK], [drums({ folded: true })], BOTH), "spare side")).toHaveLength(1);
    expect(fixed(setup([KEYS], [], [direct("Keys", "right")]), "only one side").values).toEqual({
      missing: "left",
    });
    expect(find(setup([KEYS], [], [direct("Keys")]), "only one side")).toEqual([]);
  });

  it("with one side only get the other where it belongs, on either side and for either meaning", () => {
    const inputsOf = (s: Setup) =>
      applyEdits(s, fixed(s, "only one side").fix ?? []).monitor.inputs.map((input) =>
        input?.feed.kind === "bus" ? input.feed.side : (input?.feed.side ?? null),
      );
    const alone = (only: "left" | "right", swapped: boolean) =>
      setup([KICK], [drums({ swapped })], [null, null, null, side("Drums", only)]);
    expect(inputsOf(alone("right", false))).toEqual([null, null, "left", "right"]);
    expect(inputsOf(alone("left", false))).toEqual([null, null, null, "left", "right"]);
    expect(inputsOf(alone("right", true))).toEqual([null, null, null, "right", "left"]);
    expect(inputsOf(alone("left", true))).toEqual([null, null, "right", "left"]);
    expect(inputsOf(setup([KEYS], [], [null, direct("Keys", "right")]))).toEqual(["left", "right"]);
    // Where it belongs there is no room: both go where there is, if there is.
    expect(inputsOf(setup([KICK], [drums()], [BOTH[1]]))).toEqual(["left", "right"]);
    expect(inputsOf(setup([KICK], [drums()], [direct("Kick"), BOTH[1]]))).toEqual(["both", "left", "right"]);
    expect(inputsOf(setup([KICK], [drums()], [null, null, BOTH[0], direct("Kick")], 4)).slice(0, 2)).toEqual([
      "left",
      "right",
    ]);
    const full = setup([KICK], [drums()], [direct("Kick"), BOTH[1], null], 3);
    expect(inputsOf(full)).toEqual(["both", "left", "right"]);
    const none = setup([KICK], [drums()], [direct("Kick"), BOTH[1]], 2);
    expect(find(none, "only one side")[0]?.fix).toBeUndefined();
  });

  it("split and meant to be reversed are put together in that order", () => {
    const s = setup([KICK, VOX], [drums({ swapped: true })], [BOTH[0], direct("Vox"), BOTH[1]]);
    const after = applyEdits(s, fixed(s, "split").fix ?? []);
    expect(after.monitor.inputs.slice(2)).toEqual([BOTH[1], BOTH[0]]);
  });

  it("split with one side beyond the count come together in order, not just where there is room", () => {
    const s = setup([KICK], [drums()], [null, BOTH[0], BOTH[1]], 2);
    expect(fixed(s, "beyond last").fix).toBeDefined();
    // A copy stands in between: the one that counts then is put in order.
    const copies = [null, null, BOTH[0], BOTH[1], BOTH[1]];
    const thrice = setup([KICK], [drums()], copies, 3);
    expect(made(thrice, find(thrice, "beyond last")[0] as Issue)).toEqual([]);
    const turned = setup([KICK, VOX], [drums()], [null, BOTH[0], direct("Vox"), BOTH[1]], 3);
    expect(applyEdits(turned, fixed(turned, "beyond last").fix ?? []).monitor.inputs.slice(0, 2)).toEqual(
      BOTH,
    );
  });

  it("lie as those sides do that are on", () => {
    const off = side("Drums", "left", { on: false });
    const s = setup([KICK], [drums()], [off, null, BOTH[1], BOTH[0]]);
    expect(find(s, "swapped")[0]?.inputs).toEqual([2, 3]);
    expect(find(s, "off")).toEqual([]);
    expect(find(s, "patched twice")[0]).toMatchObject({ inputs: [0, 3], values: { again: 0, rise: null } });
    fixed(s, "patched twice");
  });

  it("folded keep the side that is on", () => {
    const inputs = [side("Drums", "left", { on: false }), BOTH[1]];
    const s = setup([KICK], [drums({ folded: true })], inputs);
    expect(fixed(s, "spare side").values.spare).toEqual([0]);
  });

  it("of a stereo channel are checked alike", () => {
    fixed(setup([KEYS], [], [direct("Keys", "right"), direct("Keys", "left")]), "swapped");
    fixed(setup([KEYS], [], [direct("Keys", "left"), null, direct("Keys", "right")]), "split");
  });
});

describe("tap points", () => {
  const flagOf = (kind: keyof typeof TAP_ADVICE, tap: TapPoint) =>
    find(setup([tapped(channel("x", { kind }), tap)], [], [direct("x")]), "tap point");

  it("that do not fit are told with the reason and put right", () => {
    const s = setup([tapped(VOX, "pre-eq")], [], [direct("Vox")]);
    expect(fixed(s, "tap point").values.why).toBe("vocal without EQ");
    const bass = setup([tapped(channel("b", { kind: "bass" }), "post-fader")], [], [direct("b")]);
    expect(fixed(bass, "tap point").values.why).toBe("instrument follows fader");
    expect(flagOf("drum", "pre-hpf")[0]?.values.why).toBe("rumble");
    expect(flagOf("vocal", "post-fader")[0]?.values.why).toBe("vocal follows fader");
  });

  it("after the fader fit no kind but the sound of a video, and the better one always fits", () => {
    for (const kind of Object.keys(TAP_ADVICE) as (keyof typeof TAP_ADVICE)[]) {
      expect(flagOf(kind, "post-fader"), kind).toHaveLength(kind === "video" ? 0 : 1);
      expect(flagOf(kind, TAP_ADVICE[kind].better), kind).toEqual([]);
    }
  });
});

describe("what is missing or too much", () => {
  it("more feeds than inputs, and what lies beyond while others are free", () => {
    const s = setup([KICK, VOX, KEYS], [], [direct("Kick"), direct("Vox"), direct("Keys")], 2);
    expect(find(s, "too many")[0]).toMatchObject({
      severity: "fault",
      inputs: [2],
      values: { used: 3, inputCount: 2, over: 1 },
    });
    const room = setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(fixed(room, "beyond last").values).toEqual({ inputCount: 2, free: [1] });
  });

  it("the same thing patched twice", () => {
    const s = setup([VOX], [], [direct("Vox", "both", { on: false }), direct("Vox")]);
    expect(fixed(s, "patched twice")).toMatchObject({
      inputs: [0, 1],
      values: { again: 0, rise: null },
    });
    const loud = setup([VOX], [], [direct("Vox"), direct("Vox")]);
    expectNear(find(loud, "patched twice")[0]?.values.rise ?? null, 6.02, printed(2));
    const mono = setup([KEYS], [], [direct("Keys"), direct("Keys", "left"), direct("Keys", "right")]);
    expect(fixed(mono, "patched twice").inputs).toEqual([0, 1]);
    const off = { on: false };
    const asOne = setup(
      [KEYS],
      [],
      [direct("Keys"), direct("Keys", "left", off), direct("Keys", "right", off)],
    );
    expect(find(asOne, "patched twice")).toEqual([]);
  });

  it("feeds that are off or muted", () => {
    expect(fixed(setup([VOX], [], [direct("Vox", "both", { on: false })]), "off").inputs).toEqual([0]);
    expect(find(setup([{ ...VOX, muted: true }], [], [direct("Vox")]), "muted")).toHaveLength(1);
    const once = setup([VOX], [], [direct("Vox", "both", { on: false }), direct("Vox")]);
    expect(find(once, "off")).toEqual([]);
  });

  it("unfed channels and listeners", () => {
    const s = setup([KICK, VOX, KEYS], [drums()], [...BOTH, direct("Vox")]);
    expect(fixed(s, "unfed channel").channels).toEqual(["Keys"]);
    const full = { ...s, monitor: { ...s.monitor, inputCount: 4 } };
    expect(find(full, "unfed channel")[0]?.fix).toBeUndefined();
    const none = setup([KICK, VOX], [drums()], [direct("Vox")], 16, [
      listener("l2", { kind: "drummer", bus: "Drums" }),
      listener("l3"),
    ]);
    expect(find(none, "unfed listener").map((f) => [f.listeners, f.severity])).toEqual([[["l2"], "fault"]]);
    expect(find(none, "no bus").map((f) => [f.listeners, f.severity])).toEqual([[["l3"], "note"]]);
  });

  it("buses that are patched with nothing in them, and names that say nothing", () => {
    const s = setup([VOX, { ...KICK, name: " vox" }], [drums({ sends: [] })], [...BOTH, direct("Vox")]);
    expect(find(s, "empty bus")).toHaveLength(1);
    expect(find(s, "same name")[0]?.channels).toEqual(["Vox", "Kick"]);
  });

  it("what several share is told once, with all its inputs and one fix", () => {
    const off = { on: false };
    const s = setup(
      [KICK, VOX],
      [],
      [direct("Kick", "both", off), direct("Vox"), direct("Vox", "both", off)],
    );
    expect(find(s, "off").map((f) => f.channels)).toEqual([["Kick"]]);
    const both = setup(
      [KICK, VOX, KEYS],
      [],
      [direct("Kick", "both", off), direct("Vox", "both", off), direct("Keys")],
    );
    expect(fixed(both, "off")).toMatchObject({
      inputs: [0, 1],
      channels: ["Kick", "Vox"],
      fix: [
        { edit: "input", index: 0, to: direct("Kick") },
        { edit: "input", index: 1, to: direct("Vox") },
      ],
    });
    // Of listeners only those of one bus.
    const band = ["a", "b", "c"].map((id, i) => listener(id, { bus: i < 2 ? "Drums" : "Horns" }));
    const unfed = setup([KICK], [drums(), bus("Horns", ["Kick"])], [direct("Kick")], 16, band);
    expect(find(unfed, "unfed listener").map((f) => f.listeners)).toEqual([["a", "b"], ["c"]]);
    // Tap points only for the same reason.
    const taps = setup(
      [tapped(VOX, "post-fader"), { ...tapped(VOX, "post-fader"), id: "Vox 2" }, tapped(KICK, "post-fader")],
      [],
      [direct("Vox"), direct("Vox 2"), direct("Kick")],
    );
    expect(find(taps, "tap point").map((f) => f.channels)).toEqual([["Vox", "Vox 2"], ["Kick"]]);
  });

  it("nothing fed at all is one fault, not one for each channel", () => {
    expect(patchIssues(blankSetup()).map((f) => f.code)).toEqual(["nothing fed"]);
    const off = setup([VOX, KICK], [], [direct("Vox", "both", { on: false })]);
    expect(patchIssues(off).map((f) => f.code)).toEqual(["nothing fed", "off"]);
  });
});

describe("on any setup", () => {
  it("every issue reads as two sentences, points at inputs that are there and never at NaN", () => {
    fc.assert(
      fc.property(anySetup(8, 14), (s) => {
        for (const f of patchIssues(s)) {
          const { says, remedy } = describeIssue(s, f);
          expect(says).toMatch(/^\S.*\.$/s);
          expect(says + remedy).not.toMatch(/NaN|undefined|null| {2}/);
          expect(remedy).toMatch(/\.$/);
          for (const i of f.inputs) expect(s.monitor.inputs[i]).not.toBeNull();
          expect(f.fix).not.toEqual([]);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("every fix puts its own flag right and makes no new fault", () => {
    const met = new Set<IssueCode>();
    fc.assert(
      fc.property(anySetup(6, 10), (s) => {
        for (const f of patchIssues(s)) {
          if (!f.fix) continue;
          met.add(f.code);
          const left = find(applyEdits(s, f.fix), f.code);
          const same = (g: Issue): boolean =>
            JSON.stringify([g.values, g.inputs, g.channels, g.buses]) ===
            JSON.stringify([f.values, f.inputs, f.channels, f.buses]);
          expect(left.filter(same)).toEqual([]);
          expect(made(s, f), JSON.stringify(f)).toEqual([]);
        }
      }),
      { numRuns: 1000 },
    );
    expect([...met].sort()).toEqual([
      "beyond last",
      "heard twice",
      "normal",
      "off",
      "only one side",
      "patched twice",
      "spare side",
      "split",
      "swapped",
      "tap point",
      "unfed bus",
      "unfed channel",
    ]);
  });
});
