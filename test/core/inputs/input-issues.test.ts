import { describe, expect, it } from "vitest";
import {
  copyIssues,
  overIssues,
  silentIssues,
  tapIssues,
  twiceIssues,
} from "../../../src/core/inputs/input-issues";
import { inputsLeft } from "../../../src/core/inputs/usage";
import { expectNear } from "../../near";
import { bus, channel, direct, setup, side, tapped, valuesOf } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const VOX = channel("Vox", { kind: "vocal" });
const BASS = channel("Bass", { kind: "bass" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });

describe("a feed beyond the last input", () => {
  it("is moved into the free input, and only that is changed", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(overIssues(s)).toEqual([
      {
        code: "beyond last",
        severity: "fault",
        inputs: [2],
        channels: [],
        buses: [],
        listeners: [],
        values: { inputCount: 2, free: [1] },
        fix: [
          { edit: "input", index: 1, to: direct("Vox") },
          { edit: "input", index: 2, to: null },
        ],
      },
    ]);
  });

  it("wants one of the free inputs, which is then not left for a recommendation", () => {
    const s = setup([KICK, VOX, BASS], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(inputsLeft(s.monitor)).toBe(0);
    expect(inputsLeft({ ...s.monitor, inputCount: 3 })).toBe(1);
    expect(inputsLeft({ ...s.monitor, inputCount: 1 })).toBe(0);
  });

  it("is told once for several", () => {
    const s = setup([KICK, VOX], [], [null, null, null, direct("Kick"), direct("Vox")], 3);
    expect(overIssues(s)[0]).toMatchObject({
      inputs: [3, 4],
      values: { inputCount: 3, free: [0, 1, 2] },
    });
  });

  it("has no fix of its own where there is no room", () => {
    const s = setup([KICK, VOX, BASS], [], [direct("Kick"), direct("Vox"), direct("Bass")], 2);
    const [found] = overIssues(s);
    expect(found).toMatchObject({
      code: "too many",
      inputs: [2],
      values: { used: 3, inputCount: 2, over: 1 },
    });
    expect(found?.fix).toBeUndefined();
  });
});

describe("a channel that comes in twice", () => {
  const twice = (sends: number, pan: number) =>
    valuesOf(
      twiceIssues(
        setup(
          [{ ...VOX, pan }],
          [
            bus("All", [], {
              sends: [{ channel: "Vox", on: true, level: sends, tap: "post-fader" as const, pan: null }],
            }),
          ],
          [side("All", "left"), side("All", "right"), direct("Vox")],
        ),
      ),
      "heard twice",
    );

  it("is told with what changes in each ear", () => {
    // sin/cos centre, −3.01 dB a side: 20 lg (1 + 10^(−3.01/20)) = 4.65; hard right: 20 lg 2 = 6.02 right only.
    const alike = 20 * Math.log10(1 + Math.SQRT1_2);
    expectNear(twice(0, 0).values.rise[0] ?? Number.NaN, alike, 1e-9);
    expectNear(twice(0, 0).values.rise[1] ?? Number.NaN, alike, 1e-9);
    expect(twice(0, 1)).toMatchObject({
      severity: "warn",
      inputs: [0, 1, 2],
      channels: ["Vox"],
      buses: ["All"],
      values: { direct: [2], within: [0, 1], rise: [0, expect.closeTo(20 * Math.log10(2), 9)] },
      fix: [{ edit: "input", index: 2, to: null }],
    });
  });
});

describe("an ear that hears neither", () => {
  it("is left out", () => {
    // Balance at hard left: the right channel is silent in the bus, and its own input is off.
    const keys = { ...KEYS, pan: -1 };
    const own = [direct("Keys", "left"), direct("Keys", "right", { on: false })];
    const found = twiceIssues(
      setup([keys], [bus("All", ["Keys"])], [side("All", "left"), side("All", "right"), ...own]),
    );
    expect(valuesOf(found, "heard twice").values.rise).toEqual([expect.closeTo(20 * Math.log10(2), 9), null]);
  });
});

describe("the same thing in two inputs", () => {
  it("is told for a bus too, but not for one that was folded on purpose", () => {
    const folded = (id: string, yes: boolean) => bus(id, ["Kick"], { folded: yes });
    const inputs = [side("All", "left"), side("All", "left"), side("All", "right")];
    expect(copyIssues(setup([KICK], [folded("Other", true), folded("All", false)], inputs))).toEqual([
      expect.objectContaining({
        severity: "warn",
        inputs: [0, 1],
        buses: ["All"],
        values: { again: 1, rise: expect.closeTo(20 * Math.log10(2), 9) },
      }),
    ]);
    expect(copyIssues(setup([KICK], [folded("All", true), folded("Other", false)], inputs))).toEqual([]);
    // A channel of the same id as a folded bus is no bus.
    expect(copyIssues(setup([KICK], [folded("Kick", true)], [direct("Kick"), direct("Kick")]))).toHaveLength(
      1,
    );
  });

  it("says nothing of loudness where one of them is off", () => {
    const s = (first: boolean, second: boolean) =>
      copyIssues(
        setup([KICK], [], [direct("Kick", "both", { on: first }), direct("Kick", "both", { on: second })]),
      )[0]?.values;
    expect(s(true, false)).toEqual({ again: 1, rise: null });
    expect(s(false, false)).toEqual({ again: 1, rise: null });
  });
});

describe("a silent feed", () => {
  it("is told for the muted channel only", () => {
    const muted = { ...KEYS, muted: true };
    const inputs = [direct("Keys", "left"), direct("Keys", "right"), direct("Kick")];
    expect(silentIssues(setup([KICK, muted], [], inputs))).toEqual([
      expect.objectContaining({
        code: "muted",
        severity: "note",
        inputs: [0, 1],
        channels: ["Keys"],
      }),
    ]);
    // A bus of the same id as a muted channel is no channel.
    const sameId = setup([{ ...KICK, muted: true }], [bus("Kick", [])], [side("Kick", "left")]);
    expect(silentIssues(sameId)).toEqual([]);
  });

  it("is told for the input that is off", () => {
    const [flag] = silentIssues(
      setup([KICK, VOX], [], [direct("Vox"), direct("Kick", "both", { on: false })]),
    );
    expect(flag).toMatchObject({
      code: "off",
      severity: "warn",
      inputs: [1],
      channels: ["Kick"],
      fix: [{ edit: "input", index: 1, to: direct("Kick") }],
    });
  });
});

describe("a tap point that does not fit", () => {
  it("is told with its input and its source, and put where it fits", () => {
    const s = setup([KICK, tapped(VOX, "pre-hpf")], [], [direct("Kick"), direct("Vox")]);
    const [flag, ...others] = tapIssues(s);
    expect(others).toEqual([]);
    expect(flag).toMatchObject({
      code: "tap point",
      severity: "warn",
      inputs: [1],
      channels: ["Vox"],
      values: { tap: "pre-hpf", better: "pre-fader", why: "unprocessed vocal" },
      fix: [{ edit: "direct out", channel: "Vox", to: { ...VOX.directOut, tap: "pre-fader" } }],
    });
  });

  it("is nothing where the channel is gone, or the input takes a side", () => {
    expect(tapIssues(setup([], [bus("All", [])], [direct("Gone"), side("All", "left"), null]))).toEqual([]);
  });
});
