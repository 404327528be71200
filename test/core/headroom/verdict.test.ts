import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { fitVerdict } from "../../../src/core/headroom/verdict";
import type { Bus, Channel } from "../../../src/core/model/setup";
import { expectNear } from "../../near";
import { channel, piece, setupOf } from "./setups";

const TARGET = 6;

/** The verdict on a bus in which one channel hard left has a peak, dBFS; the input takes 18 dBu, so all ceilings are 0 dBFS. */
const verdict = (peak: number | null, given: Partial<Bus> = {}, more: readonly Channel[] = []) => {
  const setup = setupOf([channel("snare", { pan: -1, peak }), ...more], {
    bus: given,
    inputMaxDbu: 18,
    margin: TARGET,
  });
  const bus = setup.buses[0] as Bus;
  return fitVerdict(busFigures(setup, bus), bus, TARGET);
};

describe("whether a bus fits", () => {
  it("over, with how far it is over and short of the target", () => {
    const { headroom, short, ...rest } = verdict(1.24);
    expectNear(headroom, -1.24, 1e-9);
    expectNear(short, 7.24, 1e-9);
    expect(rest).toEqual({
      code: "over",
      stage: "bus",
      side: "left",
      missing: 0,
      sounding: 1,
      hardFill: null,
    });
  });

  it("under target, and fits from the target on", () => {
    const { code, short } = verdict(-4.7);
    expect(code).toBe("under target");
    expectNear(short, 1.3, 1e-9);
    expect(verdict(-5.98).code).toBe("under target");
    expect(verdict(-6)).toMatchObject({ code: "fits", short: 0 });
  });

  it("at the stage that limits", () => {
    expect(verdict(-7).stage).toBe("bus");
    expect(verdict(-7, { trim: 0.5 }).stage).toBe("output");
    expect(verdict(-7, { padDb: -0.5 }).stage).toBe("input");
    expect(verdict(-7, {}, [channel("ride", { pan: 1, peak: -3 })]).side).toBe("right");
  });

  it("no sends, no channel that sounds, no peak entered", () => {
    expect(verdict(-7, { sends: [] })).toMatchObject({ code: "no sends", sounding: 0 });
    const off = {
      sends: [{ channel: "snare", on: true, level: null, tap: "post-fader" as const, pan: null }],
    };
    expect(verdict(-7, off)).toMatchObject({ code: "silent", sounding: 0, missing: 0 });
    expect(verdict(null)).toMatchObject({ code: "no peaks", sounding: 1, missing: 1 });
    const silence = channel("gate", { peak: Number.NEGATIVE_INFINITY });
    expect(verdict(null, {}, [silence])).toMatchObject({ code: "no peaks", sounding: 2, missing: 1 });
  });

  it("counts the peaks that are not entered, whatever fits of the rest", () => {
    const quiet = ["a", "b", "c"].map((id) => channel(id, { peak: null }));
    expect(verdict(-9, {}, quiet)).toMatchObject({ code: "fits", missing: 3, sounding: 4 });
    expect(verdict(1, {}, quiet)).toMatchObject({ code: "over", missing: 3, sounding: 4 });
  });

  it("tells where a hard fill clips though the likely peak does not", () => {
    const drums = ["a", "b", "c"].map((id) => channel(id, { piece: id, pan: -1, peak: -8 }));
    const pieces = [piece("a", ["hand"]), piece("b", ["hand"]), piece("c", ["kick-foot"])];
    const setup = setupOf(drums, { pieces, inputMaxDbu: 18, margin: 0 });
    const bus = setup.buses[0] as Bus;
    const { code, hardFill } = fitVerdict(busFigures(setup, bus), bus, 0);
    // Likely: 1 + √2 times one of them, 7.66 − 8 = −0.34 dBFS; all three limbs: 20 lg 3 − 8 = 1.54 dBFS.
    expect(code).toBe("fits");
    expect(hardFill?.stage).toBe("bus");
    expectNear(hardFill?.headroom ?? Number.NaN, 8 - 20 * Math.log10(3), 1e-9);
    expect(hardFill?.isPlayed).toBe(true);
    expect(verdict(1).hardFill).toBeNull();
  });

  it("tells what a hard fill leaves where it does not clip, and of what nobody strikes only that its peaks can", () => {
    const of = (peak: number, pieces: Parameters<typeof setupOf>[1] = {}) => {
      const setup = setupOf(
        ["a", "b", "c"].map((id) => channel(id, { piece: id, pan: -1, peak })),
        { inputMaxDbu: 18, margin: 0, ...pieces },
      );
      const bus = setup.buses[0] as Bus;
      return fitVerdict(busFigures(setup, bus), bus, 0).hardFill;
    };
    const pieces = [piece("a", ["hand"]), piece("b", ["hand"]), piece("c", ["hand"])];
    // Two hands: 20 lg 2 − 12 = −5.98 dBFS, less than the likely peak of all three.
    const fill = of(-12, { pieces });
    expect(fill).toMatchObject({ stage: "bus", isPlayed: true });
    expectNear(fill?.headroom ?? Number.NaN, 12 - 20 * Math.log10(2), 1e-9);
    expect(of(-12)).toBeNull();
    expect(of(-8)).toEqual({
      stage: "bus",
      headroom: expect.closeTo(8 - 20 * Math.log10(3), 9),
      isPlayed: false,
    });
  });
});
