import { describe, expect, it } from "vitest";
import { peaksThrough } from "../../../src/core/measure/bus-gains";
import type { MixFigures } from "../../../src/core/measure/figures";
import { expectNear } from "../../near";

const mixOf = (peak: number): MixFigures => ({
  rms: peak - 12,
  gatedRms: peak - 12,
  peak,
  truePeak: peak + 1,
  peakAt: 0,
  parts: [],
});
const MIX = mixOf(-6);
const SILENT = mixOf(Number.NEGATIVE_INFINITY);

describe("peaks through other gains", () => {
  it("follow a trim, also where the first track does not go to the side", () => {
    const { peak, truePeak, stale } = peaksThrough(MIX, [0, 0.5, 0.2], [0, 0.25, 0.1]);
    expectNear(peak, -6 - 20 * Math.log10(2), 1e-12);
    expectNear(truePeak, -5 - 20 * Math.log10(2), 1e-12);
    expect(stale).toBe(false);
    expect(peaksThrough(MIX, [0, 0.5], [0.5, 0.5])).toEqual({ peak: -6, truePeak: -5, stale: true });
  });

  it.each([
    ["nearly closed sends", [1e-4, 1e-4], [1e-4, 1e-4]],
    ["a trim nearly closed since", [1, 1], [1e-4, 1e-4]],
  ])("are stale after a tenth of a decibel at one track, through %s too", (_, was, now) => {
    expect(peaksThrough(MIX, was, now).stale).toBe(false);
    const [first, second] = now as [number, number];
    expect(peaksThrough(MIX, was, [first, second * 10 ** (0.1 / 20)]).stale).toBe(true);
  });

  it("of a side that nothing went to are none while nothing goes to it, and stale as soon as one track does", () => {
    const none = Number.NEGATIVE_INFINITY;
    expect(peaksThrough(SILENT, [0, 0], [0, 0])).toEqual({ peak: none, truePeak: none, stale: false });
    expect(peaksThrough(SILENT, [0, 0], [0, 0.5])).toEqual({ peak: none, truePeak: none, stale: true });
  });
});
