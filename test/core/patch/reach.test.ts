import { describe, expect, it } from "vitest";
import { applyEdits } from "../../../src/core/patch/flag";
import { reachFlags } from "../../../src/core/patch/reach";
import type { Setup } from "../../../src/core/setup";
import { direct, leg, listener, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const TALK = source("Talk", { kind: "talk" });
const KEYS = source("Keys", { kind: "keys", channels: 2 });
const RENAME = "Give each a name of its own: on the patch sheet nobody can tell them apart.";

const found = (s: Setup, code: string) => reachFlags(s).filter((f) => f.code === code);

describe("a source that nobody hears", () => {
  const flagFor = (who: typeof KICK) =>
    found(setup([KICK, who], [], [direct("Kick")], 16, []), "unfed source")[0];

  it("is put into the first free slot, tapped where it fits", () => {
    expect(flagFor(TALK)).toMatchObject({
      severity: "warn",
      sources: ["Talk"],
      says: "Talk is in no slot and in no patched sum: no player hears it.",
      remedy: "Give it a slot, or send it into a sum that is patched.",
      fix: [{ edit: "slot", index: 1, to: direct("Talk", "both", { tap: "before-eq" }) }],
    });
  });

  it("of two channels is put into two, left first, switched on", () => {
    expect(flagFor(KEYS)?.fix).toEqual([
      { edit: "slot", index: 1, to: direct("Keys", "left") },
      { edit: "slot", index: 2, to: direct("Keys", "right") },
    ]);
  });
});

describe("a listener that hears nothing", () => {
  const flagOf = (slots: Parameters<typeof setup>[2], heard: string | null, fed = "Horns") =>
    found(
      setup([KICK], [sum("Drums", ["Kick"]), sum("Horns", ["Kick"])], [leg(fed, "left"), ...slots], 16, [
        listener("l2", { name: "Mara, drums", sum: heard }),
      ]),
      "unfed listener",
    );

  it("is told the sum that has no slot, or that is off", () => {
    expect(flagOf([], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        listeners: ["l2"],
        sums: ["Drums"],
        slots: [],
        says: "Mara hears Drums, which has no slot.",
        remedy: "Give Drums its slots.",
      }),
    ]);
    expect(flagOf([leg("Drums", "right", { on: false })], "Drums")).toEqual([
      expect.objectContaining({
        severity: "fault",
        slots: [1],
        says: "Mara hears Drums, which is off.",
        remedy: "Switch Drums on.",
      }),
    ]);
    expect(flagOf([], "Drums", "Drums")).toEqual([]);
  });

  it("is told that no sum is chosen; the audience never is", () => {
    expect(flagOf([], null)).toEqual([
      expect.objectContaining({
        severity: "note",
        listeners: ["l2"],
        says: "Mara hears no sum, only what has a slot of its own.",
      }),
    ]);
  });
});

describe("a sum with nothing in it", () => {
  it("is told with its slots", () => {
    const s = setup(
      [KICK],
      [sum("Drums", [])],
      [direct("Kick"), leg("Drums", "left"), leg("Drums", "right")],
    );
    expect(found(s, "empty sum")).toEqual([
      expect.objectContaining({ severity: "warn", sums: ["Drums"], slots: [1, 2] }),
    ]);
  });
});

describe("names that two have", () => {
  it("are told for sources and for sums, whatever their case and the blanks around them", () => {
    const s = setup(
      [KICK, source("k2", { name: " kick " }), source("x", { name: "" }), source("y", { name: " " })],
      [sum("a", ["Kick"], { name: "Straße" }), sum("b", [], { name: "STRAßE" }), sum("c", [])],
      [direct("Kick"), direct("k2"), direct("x"), direct("y")],
    );
    expect(
      found(s, "same name").map(({ severity, sources, sums, says, remedy }) => [
        severity,
        sources,
        sums,
        says,
        remedy,
      ]),
    ).toEqual([
      ["note", ["Kick", "k2"], [], "2 sources are called “Kick”.", RENAME],
      ["note", ["x", "y"], [], "2 sources have no name.", RENAME],
      ["note", [], ["a", "b"], "2 sums are called “Straße”.", RENAME],
    ]);
  });

  it("are two where a sheet shows other letters", () => {
    const s = setup(
      [source("k1", { name: "Groß" }), source("k2", { name: "Gross" })],
      [],
      [direct("k1"), direct("k2")],
    );
    expect(found(s, "same name")).toEqual([]);
  });

  it("are shown without the blanks around them", () => {
    const s = setup(
      [source("k1", { name: " Kick" }), source("k2", { name: "Kick" })],
      [],
      [direct("k1"), direct("k2")],
    );
    expect(found(s, "same name")[0]?.says).toBe("2 sources are called “Kick”.");
  });

  it("do not turn the words behind them", () => {
    const name = "\u202Ekcik";
    const s = setup([source("k1", { name }), source("k2", { name })], [], [direct("k1"), direct("k2")]);
    expect(found(s, "same name")[0]?.says).toBe("2 sources are called “\u202Ekcik\u202C”.");
  });
});

describe("a patch that brings no sound", () => {
  const muted = source("Bass", { muted: true });

  it("is one fault with everything that waits, and the sums to begin with", () => {
    const s = setup([KICK, muted, KEYS], [sum("Drums", ["Kick"]), sum("Horns", [])], [direct("Bass")]);
    expect(reachFlags(s)).toEqual([
      expect.objectContaining({
        code: "nothing fed",
        severity: "fault",
        sources: ["Kick", "Keys"],
        listeners: ["l2"],
        says: "Nothing is fed: no slot brings a sound.",
        remedy: "Begin with Drums and Horns.",
      }),
    ]);
  });

  it("begins with a source where there is no sum; one sound ends it", () => {
    const s = setup([KICK], [], []);
    expect(reachFlags(s)[0]?.remedy).toBe("Put the first source into a slot.");
    const fed = applyEdits(s, [{ edit: "slot", index: 0, to: direct("Kick") }]);
    expect(found(fed, "nothing fed")).toEqual([]);
  });
});
