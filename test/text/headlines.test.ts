import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { directOutFigures } from "../../src/core/headroom/direct-outs";
import { busFigures } from "../../src/core/headroom/figures";
import { openDirectOuts } from "../../src/core/headroom/open-direct-outs";
import { patchFigures } from "../../src/core/inputs/figures";
import type { Setup } from "../../src/core/model/setup";
import { imagesOf } from "../../src/core/stereo/image";
import { describeChannels } from "../../src/text/channels";
import { describeDirectOut, describeOpenDirectOuts } from "../../src/text/direct-outs";
import { describeFit } from "../../src/text/fit";
import { describeCeiling } from "../../src/text/headroom";
import { describeImage } from "../../src/text/image";
import { describePatch } from "../../src/text/patch";
import type { Tone } from "../../src/text/statement";
import * as heads from "../core/headroom/setups";
import { anySetup, bus, channel, direct, setup, side } from "../core/inputs/setups";
import { randomSetup } from "../core/recommend/setups";

/** What a value that nobody entered must not look like. */
const INVENTED = /∞|NaN|null|undefined|0 %/;

/** Runs a property and says how many of its cases had a tick: one that never ticks proves nothing. */
const ticks = <T>(any: fc.Arbitrary<T>, toneOf: (value: T) => Tone): number => {
  let count = 0;
  fc.assert(
    fc.property(any, (value) => {
      if (toneOf(value) === "fine") count += 1;
    }),
    { numRuns: 400 },
  );
  return count;
};

describe("a tick means that nothing is left to do", () => {
  it("headroom: every peak that sounds is entered, the target is kept, and no hard fill clips", () => {
    const toneOf = (of: Setup): Tone => {
      const its = heads.onlyBus(of);
      const figures = busFigures(of, its);
      const { tone, says, more } = describeFit(of, its, figures);
      const unknown = figures.sides[0].contributions.filter(
        (row) => of.channels.find(({ id }) => id === row.channel)?.peak === null,
      );
      if (unknown.length > 0) expect(says).toMatch(/not entered|No peaks entered/);
      expect(`${says} ${more}`).not.toMatch(INVENTED);
      const notes = figures.ceilings.map(({ state }) => describeCeiling(state, figures.unknown.peak.length));
      expect(figures.unknown.peak).toEqual(unknown.map((row) => row.channel));
      if (unknown.length > 0) expect(notes).not.toContain("fine");
      if (tone !== "fine") return tone;
      expect(notes).toContain("fine");
      expect(unknown).toEqual([]);
      expect(figures.lowest.headroom).toBeGreaterThanOrEqual(of.preferences.targetHeadroom - 1e-6);
      expect(figures.hardFill.headroom).toBeGreaterThanOrEqual(-1e-6);
      expect(figures.remedy).toBeNull();
      return tone;
    };
    expect(ticks(heads.anySetup(6), toneOf)).toBeGreaterThan(20);
  });

  it("image: nothing on the wrong side or centred for want of a pan, no L/R lost, every bus in inputs", () => {
    const toneOf = (seed: number): Tone => {
      const of = randomSetup(seed);
      const tones = imagesOf(of).map((image, at): Tone => {
        const listener = of.listeners[at];
        if (!listener) throw new Error("no listener");
        const { tone, says, more } = describeImage(of, listener, image);
        expect(`${says} ${more}`).not.toMatch(INVENTED);
        if (tone !== "fine") return tone;
        expect(image).toMatchObject({ count: { wrong: 0, centred: 0 }, sidesLost: 0, sideOn: false });
        expect(image.count.right).toBeGreaterThan(0);
        const heard = image.hears === "bus" ? image.rows.map((row) => row.channel) : [];
        const drums = of.channels.filter(({ id, kind }) => kind === "drum" && heard.includes(id));
        expect(drums.filter(({ piece }) => piece === null)).toEqual([]);
        return tone;
      });
      return tones.includes("fine") ? "fine" : "care";
    };
    expect(ticks(fc.nat({ max: 100_000 }), toneOf)).toBeGreaterThan(20);
  });

  const patchOf = (of: Setup, buses = 0, directOuts = 0) => {
    const figures = patchFigures(of);
    return { figures, ...describePatch(figures, of.monitor.inputCount, { buses, directOuts }) };
  };
  const VOX = channel("Vox", { kind: "vocal" });
  const KICK = channel("Kick", { kind: "drum" });
  const whole = setup([VOX], [bus("Band", ["Vox"])], [side("Band", "left"), side("Band", "right")]);

  it("patch: no issue, nothing over, and no bus short of headroom", () => {
    expect(patchOf(whole)).toMatchObject({ tone: "fine", says: "2 of 16 inputs used, no issues", more: "" });
    expect(patchOf(whole, 2)).toMatchObject({
      tone: "care",
      says: "2 of 16 inputs used, 2 buses short of headroom",
    });
    expect(patchOf(whole, 0, 1)).toMatchObject({
      tone: "care",
      says: "2 of 16 inputs used, 1 direct out short of headroom",
    });
    expect(patchOf(whole, 1, 3).says).toBe("2 of 16 inputs used, 1 bus and 3 direct outs short of headroom");
    const twice = setup([VOX], [], [direct("Vox"), direct("Vox")]);
    const issues = patchOf(twice).figures.issues.length;
    expect(issues).toBeGreaterThan(0);
    expect(patchOf(twice, 1).tone).not.toBe("fine");
    expect(patchOf(setup([VOX], [], []))).toMatchObject({ tone: "care", says: "No inputs assigned yet" });
    expect(patchOf(setup([VOX, KICK], [], [direct("Vox"), direct("Kick")], 1))).toMatchObject({
      tone: "wrong",
      says: "1 feed too many for 1 input",
    });
    const toneOf = (of: Setup): Tone => {
      const { figures, tone, says, more } = patchOf(of);
      expect(`${says} ${more}`).not.toMatch(INVENTED);
      expect(tone === "fine").toBe(figures.issues.length === 0 && figures.usage.used.length > 0);
      if (figures.issues.length > 0) expect(more).toContain(`${figures.issues.length} issue`);
      return tone;
    };
    ticks(anySetup(4, 6), toneOf);
  });

  it("channels: there are some, they sound, and no bus is short of headroom", () => {
    const drums = { name: "Drums", stereo: true };
    expect(describeChannels(drums, 8, 8, 0)).toEqual({
      tone: "fine",
      says: "8 channels in Drums, stereo bus",
    });
    expect(describeChannels({ ...drums, stereo: false }, 1, 8, 1)).toEqual({
      tone: "care",
      says: "1 channel in Drums, mono bus",
    });
    expect(describeChannels(drums, 0, 8, 0)).toEqual({ tone: "care", says: "Drums is silent" });
    expect(describeChannels(undefined, 0, 8, 0)).toEqual({
      tone: "fine",
      says: "No bus yet: every channel is on its own",
    });
    expect(describeChannels(undefined, 0, 0, 0)).toEqual({ tone: "care", says: "No channels yet" });
  });
});

it("direct outs that are over, under target or without an entered peak are counted", () => {
  const peaks = [3, -2, -3, -20, null, Number.NEGATIVE_INFINITY];
  const all = peaks.map((peak, at) => channel(`Vox ${at}`, { peak }));
  const of = (channels: typeof all) =>
    openDirectOuts(
      directOutFigures(
        setup(
          channels,
          [],
          channels.map(({ id }) => direct(id)),
        ),
      ),
    );
  expect(of(all)).toEqual({ over: 1, underTarget: 2, unknown: 1 });
  expect(describeOpenDirectOuts(of(all))).toBe(
    "1 direct out over, 2 direct outs under target and 1 direct out without an entered peak, listed below.",
  );
  expect(describeOpenDirectOuts(of(all.slice(3, 4)))).toBe("");
});

it("a direct out without an entered peak is “not entered”, and no figure is made of it", () => {
  const of = setup([channel("Vox", { peak: null })], [], [direct("Vox")]);
  const [row] = directOutFigures(of);
  if (!row) throw new Error("no direct out");
  expect(describeDirectOut(of, row)).toEqual(["Vox", "not entered", "–", "–"]);
});
