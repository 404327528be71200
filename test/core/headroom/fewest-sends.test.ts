import { describe, expect, it } from "vitest";
import { fewestPulls, MOST_PULL, type SideLimit } from "../../../src/core/headroom/fewest-sends";
import { LIMITS } from "../../../src/document/limits";

const all = () => true;
const butTheFirst = (send: number) => send !== 0;
const times = (count: number, peak: number): number[] => Array.from({ length: count }, () => peak);

describe("which sends are pulled", () => {
  it("the next, where the loudest may not be pulled", () => {
    // 0.5 + 0.4 · 10^(−9/20) = 0.642; a step less leaves 0.659.
    expect(fewestPulls([{ peaks: [0.5, 0.4], limit: 0.65 }], 1, butTheFirst)).toEqual({
      sends: [1],
      steps: 9,
    });
  });

  it("those of the side that is over, where a louder one is alone on the other", () => {
    const left = { peaks: [0.9, 0, 0], limit: 1 };
    const right = { peaks: [0, 0.6, 0.6], limit: 1 };
    // 0.6 + 0.6 · 10^(−4/20) = 0.979; a step less leaves 1.025.
    expect(fewestPulls([left, right], 1, all)).toEqual({ sends: [1], steps: 4 });
  });

  it("none of a side that just meets its limit", () => {
    const over = { peaks: [1, 0], limit: 0.6 };
    const meets = { peaks: [0, 0.5], limit: 0.5 };
    expect(fewestPulls([over, meets], 1, all)).toEqual({ sends: [0], steps: 5 });
  });

  it("of two that would do as well, the louder", () => {
    // One step of 3 dB: 0.6 · 0.708 + 0.5 = 0.925, 0.5 · 0.708 + 0.6 = 0.954.
    expect(fewestPulls([{ peaks: [0.5, 0.6], limit: 1 }], 3, all)).toEqual({ sends: [1], steps: 1 });
  });

  it("of two that would do as well, the one that takes more of what a side can bear", () => {
    // The first is louder, but on a side with room: half of the limit, where the second takes six tenths.
    const roomy = { peaks: [1, 0.2], limit: 2 };
    const tight = { peaks: [0.25, 0.3], limit: 0.5 };
    expect(fewestPulls([roomy, tight], 3, all)).toEqual({ sends: [1], steps: 1 });
  });
});

describe("among many sends", () => {
  it("finds four of sixty alike beside a loud one that may not be pulled", () => {
    // 0.6 and the root of sixty times 0.05²: three pulled by 12 dB leave 0.978, four 0.975.
    const peaks = [0.6, ...times(60, 0.05)];
    expect(fewestPulls([{ peaks, limit: 0.976 }], 1, butTheFirst)?.sends).toEqual([1, 2, 3, 4]);
  });

  /**
   * A loud channel in both sides that may not be pulled, and pairs of channels alike, one of each at each side.
   * Pulled by 12 dB, each saves 0.94 of its power: so many of the left and of the right ones have to be pulled.
   */
  const pairs = (count: number, left: number, right: number): SideLimit[] => {
    const side = (peaks: readonly number[], pulled: number): SideLimit => ({
      peaks: [2 - 0.05 * Math.sqrt(count - pulled + 0.5), ...times(count, 0).flatMap(() => peaks)],
      limit: 2,
    });
    return [side([0.05, 0], left), side([0, 0.05], right)];
  };
  const pulledOf = (sides: readonly SideLimit[]) => fewestPulls(sides, MOST_PULL, butTheFirst);

  it("finds two at each side where there are a few pairs", () =>
    expect(pulledOf(pairs(7, 2, 2))).toEqual({ sends: [1, 2, 3, 4], steps: 1 }));

  it("names none where there are too many choices to look through", () =>
    expect(pulledOf(pairs(40, 2, 2))).toBeNull());

  it("gives up soon with as many sends as a setup holds", () =>
    expect(pulledOf(pairs(LIMITS.channels / 2 - 1, 4, 1))).toBeNull());
});
