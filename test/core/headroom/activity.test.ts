import { describe, expect, it } from "vitest";
import { activityIn } from "../../../src/core/headroom/activity";
import { busFigures } from "../../../src/core/headroom/figures";
import type { Piece } from "../../../src/core/model/setup";
import { expectNear, TINY } from "../../near";
import { channel, onlyBus, piece, recordingOf, setupOf } from "./setups";

const tom: Piece = { ...piece("tom", ["hand"]), kind: "tom" };

describe("how much of the time a channel plays", () => {
  it("is what is entered, else what a recording has, else what is typical of it", () => {
    const of = (given: Parameters<typeof channel>[1], measured: number | null = null) => {
      const recording = recordingOf(["x"], 0);
      const setup = setupOf([channel("x", { activity: null, ...given })], {
        pieces: [tom],
        recording: { ...recording, channels: recording.channels.map((m) => ({ ...m, activity: measured })) },
      });
      return activityIn(setup)(setup.channels[0] as Parameters<ReturnType<typeof activityIn>>[0]);
    };
    expect(of({ activity: 0.25 }, 0.5)).toBe(0.25);
    expect(of({}, 0.5)).toBe(0.5);
    expect(of({ kind: "click" })).toBe(1);
    // A tom is hit now and then; a bass plays nearly always.
    expect(of({ piece: "tom" })).toBeLessThan(of({ kind: "bass" }));
  });
});

describe("average RMS", () => {
  it("is the power of each by the share of its time; when everybody plays it counts whole", () => {
    const setup = setupOf([
      channel("a", { activity: 0.5, pan: -1 }),
      channel("b", { activity: 0.1, pan: -1 }),
    ]);
    const { average, level } = busFigures(setup, onlyBus(setup)).sides[0];
    // Two of −20 dBFS hard left: 10 lg(0.5 + 0.1) and 10 lg 2 above one of them.
    expectNear(average, -20 + 10 * Math.log10(0.6), TINY);
    expectNear(level, -20 + 10 * Math.log10(2), TINY);
  });
});
