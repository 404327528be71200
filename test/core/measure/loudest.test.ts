import { describe, expect, it } from "vitest";
import type { TrackPlace } from "../../../src/core/measure/bus-gains";
import { courseLevels, makersOf } from "../../../src/core/measure/loudest";
import { figuresOf } from "../../measure/job";
import { expectNear } from "../../near";

const RATE = 48_000;
const PLACES: readonly TrackPlace[] = [
  { channel: "snare", line: 0 },
  { channel: "keys", line: 0 },
  { channel: "keys", line: 1 },
];
const step = (from: number, to: number, x: number): Float64Array =>
  Float64Array.from({ length: RATE }, (_, i) => (i >= from * RATE && i < to * RATE ? x : 0));

describe("who made the loudest moment", () => {
  it("by channel, the largest part first; what works against the others is below 0", async () => {
    const figures = await figuresOf(
      [step(0.5, 0.6, -0.1), step(0.5, 0.6, 0.3), step(0.5, 0.6, 0.4)],
      [
        [1, 0],
        [1, 1],
        [1, 0.5],
      ],
    );
    expect(figures.loudest?.side).toBe("left");
    const [first, second, ...others] = makersOf(figures, PLACES);
    expect(others).toEqual([]);
    // Energies 0.09 and 0.16 against 0.01; the left side's sample is 0.6 = 0.7 − 0.1, the right one's 0.5.
    expect(first?.channel).toBe("keys");
    expectNear(first?.moment ?? null, 25 / 26, 1e-6);
    expectNear(first?.left ?? null, 7 / 6, 1e-9);
    expectNear(first?.right ?? null, 1, 1e-9);
    expect(second?.channel).toBe("snare");
    expectNear(second?.moment ?? null, 1 / 26, 1e-6);
    expectNear(second?.left ?? null, -1 / 6, 1e-9);
    expectNear(second?.right ?? null, 0, 1e-9);
  });

  it("of silence is nobody, and nothing is NaN", async () => {
    const figures = await figuresOf([step(0, 0, 0)], [[1, 1]]);
    expect(makersOf(figures, PLACES.slice(0, 1))).toEqual([
      { channel: "snare", moment: 0, left: 0, right: 0 },
    ]);
  });
});

describe("the level over time in a few points", () => {
  const course = (powers: readonly number[]) => ({
    step: 0.05,
    columns: 2,
    powers: Float32Array.from(powers.flatMap((p) => [0.5, p])),
  });

  it("keeps the loudest step of those that fall together", () => {
    const powers = [0, 1, 0.25, 0, 0, 0, 0.01];
    expect(courseLevels(course(powers), 1, 3)).toEqual([0, Number.NEGATIVE_INFINITY, expect.closeTo(-20, 5)]);
    expect(courseLevels(course(powers), 1, 100)).toHaveLength(7);
    expect(courseLevels(course([]), 1, 5)).toEqual([]);
  });
});
