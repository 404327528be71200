import { describe, expect, it } from "vitest";
import { applyEdits } from "../../../src/core/inputs/issue";
import { reachIssues } from "../../../src/core/inputs/reach-issues";
import type { Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const TALK = channel("Talk", { kind: "talkback" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });
const RENAME = "Give each a name of its own: on the patch sheet nobody can tell them apart.";

const found = (s: Setup, code: string) => reachIssues(s).filter((f) => f.code === code);

describe("a channel that nobody hears", () => {
  const flagFor = (who: typeof KICK) =>
    found(setup([KICK, who], [], [direct("Kick")], 16, []), "unfed channel")[0];

  it("is put into the first free input, tapped where it fits", () => {
    expect(flagFor(TALK)).toMatchObject({
      severity: "warn",
      channels: ["Talk"],
      says: "Talk is in no input and in no patched sum: no player hears it.",
      remedy: "Give it an input, or send it into a bus that is patched.",
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
    ]);
  });
});

describe("a listener that hears nothing", () => {
  const flagOf = (inputs: Parameters<typeof setup>[2], heard: string | null, fed = "Horns") =>
    found(
      setup([KICK], [bus("Drums", ["Kick"]), bus("Horns", ["Kick"])], [side(fed, "left"), ...inputs], 16, [
        listener("l2", { name: "Mara, drums", bus: heard }),
      ]),
      "unfed listener",
    );

  it("is told the bus that has no input, or that is off", () => {
    expect(flagOf([], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        listeners: ["l2"],
        buses: ["Drums"],
        inputs: [],
        says: "Mara hears Drums, which has no input.",
        remedy: "Give Drums its inputs.",
      }),
    ]);
    expect(flagOf([side("Drums", "right", { on: false })], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        inputs: [1],
        says: "Mara hears Drums, which is off.",
        remedy: "Switch Drums on.",
      }),
    ]);
    expect(flagOf([], "Drums", "Drums")).toEqual([]);
  });

  it("is told that no bus is chosen; the audience never is", () => {
    expect(flagOf([], null)).toEqual([
      expect.objectContaining({
        severity: "note",
        listeners: ["l2"],
        says: "Mara hears no bus, only what has an input of its own.",
      }),
    ]);
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
      found(s, "same name").map(({ severity, channels, buses, says, remedy }) => [
        severity,
        channels,
        buses,
        says,
        remedy,
      ]),
    ).toEqual([
      ["note", ["Kick", "k2"], [], "2 channels are called “Kick”.", RENAME],
      ["note", ["x", "y"], [], "2 channels have no name.", RENAME],
      ["note", [], ["a", "b"], "2 sums are called “Straße”.", RENAME],
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
    expect(found(s, "same name")[0]?.says).toBe("2 channels are called “Kick”.");
  });

  it("do not turn the words behind them", () => {
    const name = "\u202Ekcik";
    const s = setup([channel("k1", { name }), channel("k2", { name })], [], [direct("k1"), direct("k2")]);
    expect(found(s, "same name")[0]?.says).toBe("2 channels are called “\u202Ekcik\u202C”.");
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
        says: "Nothing is fed: no input brings a sound.",
        remedy: "Begin with Drums and Horns.",
      }),
    ]);
  });

  it("begins with a channel where there is no bus; one sound ends it", () => {
    const s = setup([KICK], [], []);
    expect(reachIssues(s)[0]?.remedy).toBe("Put the first channel into an input.");
    const fed = applyEdits(s, [{ edit: "input", index: 0, to: direct("Kick") }]);
    expect(found(fed, "nothing fed")).toEqual([]);
  });
});
