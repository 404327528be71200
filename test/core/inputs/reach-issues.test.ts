import { describe, expect, it } from "vitest";
import { applyEdits } from "../../../src/core/inputs/issue";
import { reachIssues } from "../../../src/core/inputs/reach-issues";
import type { Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const TALK = channel("Talk", { kind: "talkback" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });

const found = (s: Setup, code: string) => reachIssues(s).filter((f) => f.code === code);

describe("a channel that nobody hears", () => {
  const flagFor = (who: typeof KICK) =>
    found(setup([KICK, who], [], [direct("Kick")], 16, []), "unfed channel")[0];

  it("is put into the first free input, tapped where it fits", () => {
    expect(flagFor(TALK)).toMatchObject({
      severity: "warn",
      channels: ["Talk"],
      fix: [
        { edit: "input", index: 1, to: direct("Talk") },
        { edit: "direct out", channel: "Talk", to: { tap: "pre-eq", on: true, trim: 0 } },
      ],
    });
  });

  it("of two channels is put into two, left first, switched on", () => {
    expect(flagFor(KEYS)?.fix).toEqual([
      { edit: "input", index: 1, to: direct("Keys", "left") },
      { edit: "input", index: 2, to: direct("Keys", "right") },
      { edit: "direct out", channel: "Keys", to: { tap: "pre-fader", on: true, trim: 0 } },
    ]);
  });
});

describe("channels that nobody hears", () => {
  it("are one issue, put one after the other where there is room for all", () => {
    const s = setup([KICK, TALK, KEYS], [], [direct("Kick")], 4, []);
    const [all, ...others] = found(s, "unfed channel");
    expect(others).toEqual([]);
    expect(all).toMatchObject({
      channels: ["Talk", "Keys"],
      fix: [
        { edit: "input", index: 1, to: direct("Talk") },
        { edit: "direct out", channel: "Talk", to: { tap: "pre-eq", on: true, trim: 0 } },
        { edit: "input", index: 2, to: direct("Keys", "left") },
        { edit: "input", index: 3, to: direct("Keys", "right") },
        { edit: "direct out", channel: "Keys", to: { tap: "pre-fader", on: true, trim: 0 } },
      ],
    });
    const full = { ...s, monitor: { ...s.monitor, inputCount: 3 } };
    expect(found(full, "unfed channel")[0]?.fix).toBeUndefined();
  });
});

describe("a listener that hears nothing", () => {
  const flagOf = (
    inputs: Parameters<typeof setup>[2],
    heard: string | null,
    fed = "Horns",
    code = "unfed listener",
  ) =>
    found(
      setup([KICK], [bus("Drums", ["Kick"]), bus("Horns", ["Kick"])], [side(fed, "left"), ...inputs], 16, [
        listener("l2", { name: "Mara, drums", bus: heard }),
      ]),
      code,
    );

  it("is told the bus that has no input, or that is off", () => {
    expect(flagOf([], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        listeners: ["l2"],
        buses: ["Drums"],
        inputs: [],
        values: { bus: "unassigned" },
      }),
    ]);
    expect(flagOf([side("Drums", "right", { on: false })], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        inputs: [1],
        values: { bus: "off" },
      }),
    ]);
    expect(flagOf([], "Drums", "Drums")).toEqual([]);
  });

  it("is told that no bus is chosen; the audience never is", () => {
    expect(flagOf([], null, "Horns", "no bus")).toEqual([
      expect.objectContaining({ severity: "note", listeners: ["l2"] }),
    ]);
  });
});

describe("a bus without a monitor input", () => {
  const HORNS = bus("Horns", ["Kick"], { swapped: true });
  const FOLD = bus("Fold-back", [], { stereo: false });

  it("is told, all at once, and put into the first free inputs as it is meant", () => {
    const s = setup([KICK], [HORNS, FOLD], [direct("Kick")], 4, []);
    expect(found(s, "unfed bus")).toEqual([
      expect.objectContaining({
        severity: "warn",
        buses: ["Horns", "Fold-back"],
        fix: [
          { edit: "input", index: 1, to: side("Horns", "right") },
          { edit: "input", index: 2, to: side("Horns", "left") },
          { edit: "input", index: 3, to: side("Fold-back", "left") },
        ],
      }),
    ]);
    const full = { ...s, monitor: { ...s.monitor, inputCount: 3 } };
    expect(found(full, "unfed bus")[0]?.fix).toBeUndefined();
    expect(found(applyEdits(s, found(s, "unfed bus")[0]?.fix ?? []), "unfed bus")).toEqual([]);
  });

  it("is not told beside the listener who hears it, nor where one side has an input", () => {
    const hears = [listener("l2", { name: "Mara, drums", bus: "Horns" })];
    expect(found(setup([KICK], [HORNS], [direct("Kick")], 16, hears), "unfed bus")).toEqual([]);
    expect(found(setup([KICK], [HORNS], [side("Horns", "left")], 16, []), "unfed bus")).toEqual([]);
  });
});

describe("a bus with nothing in it", () => {
  it("is told with its inputs", () => {
    const s = setup(
      [KICK],
      [bus("Drums", [])],
      [direct("Kick"), side("Drums", "left"), side("Drums", "right")],
    );
    expect(found(s, "empty bus")).toEqual([
      expect.objectContaining({ severity: "warn", buses: ["Drums"], inputs: [1, 2] }),
    ]);
  });
});

describe("names that two have", () => {
  it("are told for channels and for sums, whatever their case and the blanks around them", () => {
    const s = setup(
      [KICK, channel("k2", { name: " kick " }), channel("x", { name: "" }), channel("y", { name: " " })],
      [bus("a", ["Kick"], { name: "Straße" }), bus("b", [], { name: "STRAßE" }), bus("c", [])],
      [direct("Kick"), direct("k2"), direct("x"), direct("y")],
    );
    expect(
      found(s, "same name").map(({ severity, channels, buses, values }) => [
        severity,
        channels,
        buses,
        values,
      ]),
    ).toEqual([
      ["note", ["Kick", "k2"], [], { name: "Kick" }],
      ["note", ["x", "y"], [], { name: "" }],
      ["note", [], ["a", "b"], { name: "Straße" }],
    ]);
  });

  it("are two where a sheet shows other letters", () => {
    const s = setup(
      [channel("k1", { name: "Groß" }), channel("k2", { name: "Gross" })],
      [],
      [direct("k1"), direct("k2")],
    );
    expect(found(s, "same name")).toEqual([]);
  });

  it("are shown without the blanks around them", () => {
    const s = setup(
      [channel("k1", { name: " Kick" }), channel("k2", { name: "Kick" })],
      [],
      [direct("k1"), direct("k2")],
    );
    expect(found(s, "same name")[0]?.values).toEqual({ name: "Kick" });
  });
});

describe("a patch that brings no sound", () => {
  const muted = channel("Bass", { muted: true });

  it("is one fault with everything that waits, and the buses to begin with", () => {
    const s = setup([KICK, muted, KEYS], [bus("Drums", ["Kick"]), bus("Horns", [])], [direct("Bass")]);
    expect(reachIssues(s)).toEqual([
      expect.objectContaining({
        code: "nothing fed",
        severity: "fault",
        channels: ["Kick", "Keys"],
        listeners: ["l2"],
        buses: ["Drums", "Horns"],
      }),
    ]);
  });

  it("begins with a channel where there is no bus; one sound ends it", () => {
    const s = setup([KICK], [], []);
    expect(reachIssues(s)[0]).toMatchObject({ code: "nothing fed", channels: ["Kick"], buses: [] });
    const fed = applyEdits(s, [{ edit: "input", index: 0, to: direct("Kick") }]);
    expect(found(fed, "nothing fed")).toEqual([]);
  });
});
