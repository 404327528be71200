import { describe, expect, it } from "vitest";
import { fadeEnds } from "../../src/listen/seam";

const withSeam = (samples: Float32Array, rate: number): Float32Array => {
  fadeEnds(samples, rate);
  return samples;
};

describe("a seam that does not click", () => {
  it("fades both ends for 10 ms and leaves the rest as it is", () => {
    const faded = withSeam(new Float32Array(4800).fill(0.5), 48_000);
    expect([faded[0], faded.at(-1)]).toEqual([0, 0]);
    expect(faded[240]).toBeCloseTo(0.25, 6);
    expect(faded.at(-241)).toBeCloseTo(0.25, 6);
    expect(faded.slice(480, 4320).every((x) => x === 0.5)).toBe(true);
    expect(faded.slice(0, 480).every((x, i, all) => i === 0 || x > (all[i - 1] ?? 1))).toBe(true);
  });

  it("takes what is shorter than the fades", () => {
    expect([...withSeam(Float32Array.of(1, 1), 48_000)].every(Number.isFinite)).toBe(true);
    expect(withSeam(new Float32Array(0), 48_000)).toHaveLength(0);
    expect([...withSeam(Float32Array.of(1), 48_000)]).toEqual([0]);
  });
});
