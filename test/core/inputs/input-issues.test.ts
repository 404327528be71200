import { describe, expect, it } from "vitest";
import {
  copyIssues,
  overIssues,
  silentIssues,
  tapIssues,
  twiceIssues,
} from "../../../src/core/inputs/input-issues";
import { inputsLeft } from "../../../src/core/inputs/usage";
import { bus, channel, direct, setup, side, tapped } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const VOX = channel("Vox", { kind: "vocal" });
const BASS = channel("Bass", { kind: "bass" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });

describe("a feed beyond the last input", () => {
  it("is moved into the free input, and only that is changed", () => {
    const s = setup([KICK, VOX], [], [direct("Kick"), null, direct("Vox")], 2);
    expect(overIssues(s)).toEqual([
      {
        code: "over",
        severity: "fault",
        inputs: [2],
        channels: [],
        buses: [],
        listeners: [],
        says: "Input 3 is beyond the 2 there are.",
        remedy: "Move it into free inputs: 2 is free.",
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

  it("is told in the plural where there are several", () => {
    const s = setup([KICK, VOX], [], [null, null, null, direct("Kick"), direct("Vox")], 3);
    expect(overIssues(s)[0]).toMatchObject({
      says: "Inputs 4 and 5 are beyond the 3 there are.",
      remedy: "Move them into free inputs: 1, 2 and 3 are free.",
    });
  });

  it("has no fix of its own where there is no room", () => {
    const s = setup([KICK, VOX, BASS], [], [direct("Kick"), direct("Vox"), direct("Bass")], 2);
    const [flag] = overIssues(s);
    expect(flag).toMatchObject({ inputs: [2], says: "3 feeds for 2 inputs: 1 too many." });
    expect(flag?.fix).toBeUndefined();
  });
});

describe("a channel that comes in twice", () => {
  const twice = (sends: number, pan: number) =>
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
    )[0];

  it("is told once where both ears change alike, else ear by ear", () => {
    // sin/cos centre, −3.01 dB a side: 20 lg (1 + 10^(−3.01/20)) = 4.65; hard right: 20 lg 2 = 6.02 right only.
    expect(twice(0, 0)?.says).toMatch(/With both up it changes by \+4\.65 dB\.$/);
    expect(twice(0, 1)?.says).toMatch(/With both up it changes by 0\.00 dB left and \+6\.02 dB right\.$/);
    expect(twice(0, 1)).toMatchObject({
      severity: "warn",
      inputs: [0, 1, 2],
      channels: ["Vox"],
      buses: ["All"],
      remedy: "Free input 3, or take Vox out of All, if it is not meant.",
      fix: [{ edit: "input", index: 2, to: null }],
    });
  });
});

describe("an ear that hears neither", () => {
  it("is left out", () => {
    // Balance at hard left: the right channel is silent in the bus, and its own input is off.
    const keys = { ...KEYS, pan: -1 };
    const own = [direct("Keys", "left"), direct("Keys", "right", { on: false })];
    const [flag] = twiceIssues(
      setup([keys], [bus("All", ["Keys"])], [side("All", "left"), side("All", "right"), ...own]),
    );
    expect(flag?.says).toMatch(/With both up it changes by \+6\.02 dB left\.$/);
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
        says: "All is patched twice, in inputs 1 and 2. With both up it is +6.02 dB louder.",
        remedy: "Free input 2: nothing is lost.",
      }),
    ]);
    expect(copyIssues(setup([KICK], [folded("All", true), folded("Other", false)], inputs))).toEqual([]);
    // A channel of the same id as a folded sum is no bus.
    expect(copyIssues(setup([KICK], [folded("Kick", true)], [direct("Kick"), direct("Kick")]))).toHaveLength(
      1,
    );
  });

  it("says nothing of loudness where one of them is off", () => {
    const s = (first: boolean, second: boolean) =>
      copyIssues(
        setup([KICK], [], [direct("Kick", "both", { on: first }), direct("Kick", "both", { on: second })]),
      )[0]?.says;
    expect(s(true, false)).toBe("Kick is patched twice, in inputs 1 and 2. Input 2 is off.");
    expect(s(false, false)).toBe("Kick is patched twice, in inputs 1 and 2. Input 2 is off.");
  });
});

describe("a silent feed", () => {
  it("is told for the muted channel only, in the singular and the plural", () => {
    const muted = { ...KEYS, muted: true };
    const inputs = [direct("Keys", "left"), direct("Keys", "right"), direct("Kick")];
    expect(silentIssues(setup([KICK, muted], [], inputs))).toEqual([
      expect.objectContaining({
        code: "muted",
        severity: "note",
        inputs: [0, 1],
        channels: ["Keys"],
        says: "Keys is muted: inputs 1 and 2 are silent.",
      }),
    ]);
    expect(silentIssues(setup([{ ...KICK, muted: true }, KEYS], [], [direct("Kick")]))[0]?.says).toBe(
      "Kick is muted: input 1 is silent.",
    );
    // A sum of the same id as a muted channel is no source.
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
      says: "Kick in input 2 is off: nobody hears it there.",
      fix: [{ edit: "input", index: 1, to: direct("Kick") }],
    });
  });
});

describe("a tap point that does not fit", () => {
  it("is told with its input and its source, and put where it fits", () => {
    const s = setup([KICK, tapped(VOX, "pre-hpf")], [], [direct("Kick"), direct("Vox")]);
    const [flag, ...others] = tapIssues(s);
    expect(others).toEqual([]);
    expect(flag).toMatchObject({ code: "tap point", inputs: [1], channels: ["Vox"] });
    expect(flag?.says).toMatch(/^Vox in slot 2 is taken /);
  });

  it("is nothing where the channel is gone, or the input takes a side", () => {
    expect(tapIssues(setup([], [bus("All", [])], [direct("Gone"), side("All", "left"), null]))).toEqual([]);
  });
});
