import { describe, expect, it } from "vitest";
import { figuresOf } from "../../measure/job";
import { expectNear } from "../../near";

const RATE = 48_000;
/** Frames of a step of 50 ms. */
const STEP = 2400;

/** One value throughout each step. */
const steps = (...values: readonly number[]): Float64Array =>
  Float64Array.from({ length: values.length * STEP }, (_, i) => values[Math.floor(i / STEP)] as number);

describe("level over time", () => {
  it("a last step that is shorter counts by its length", async () => {
    const x = steps(0.5, 0.25).subarray(0, STEP + 600);
    const [track] = (await figuresOf([x])).tracks;
    expectNear(track?.gatedRms ?? null, 10 * Math.log10((2400 * 0.25 + 600 * 0.0625) / 3000), 1e-6);
    expectNear(track?.gatedRms ?? null, track?.rms ?? Number.NaN, 1e-6);
  });

  it("has a row for every 50 ms, and keeps nothing else", async () => {
    const { course, seconds } = await figuresOf([steps(0.5, 0, 0.25)]);
    expect(course.step).toBe(0.05);
    expect(course.powers.length / course.columns).toBe(3);
    expectNear(seconds, 3 * course.step, 1e-12);
    expect(course.powers.buffer.byteLength).toBe(course.powers.byteLength);
  });
});

describe("the loudest moment", () => {
  it("a louder track that goes into neither side has no part in it", async () => {
    const { loudest } = await figuresOf(
      [steps(0, 0.5, 0, 0), steps(0, 0, 0, 1)],
      [
        [0, 1],
        [0, 0],
      ],
    );
    expect(loudest).toMatchObject({ at: STEP / RATE, side: "right", shares: [1, 0] });
    expectNear(loudest?.level ?? null, 20 * Math.log10(0.5), 1e-6);
  });

  it("of equals is the first, and of equal sides the left", async () => {
    const { loudest } = await figuresOf([steps(0, 0.5, 0, -0.5)], [[0.7, 0.7]]);
    expect(loudest).toMatchObject({ at: STEP / RATE, side: "left" });
  });
});

describe("what cancels out", () => {
  const x = steps(1, -1);
  const gains = (rest: number): [number, number][] => [
    [0.1, 0],
    [0.3, 0],
    [-(0.1 + 0.3) + rest, 0],
  ];

  it("sample by sample is silence, though its products come to a little more than 0", async () => {
    const { mixes, loudest } = await figuresOf([x, x, x], gains(0));
    const silent = Number.NEGATIVE_INFINITY;
    expect(mixes.left).toMatchObject({ rms: silent, gatedRms: silent, peak: silent, truePeak: silent });
    expect(loudest).toBeNull();
  });

  it("but for 100 dB below what goes in is left at that level", async () => {
    const { mixes } = await figuresOf([x, x, x], gains(10 ** (-100 / 20)));
    expectNear(mixes.left.rms, -100, 1e-4);
    expectNear(mixes.left.gatedRms, -100, 1e-4);
  });
});
