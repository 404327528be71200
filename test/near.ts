import { expect } from "vitest";

/** Expects a number within a tolerance of another; infinities must be the same, NaN never passes. */
export const expectNear = (actual: number | null, expected: number, tolerance: number, what = ""): void => {
  if (Number.isFinite(expected)) {
    expect(
      Math.abs((actual ?? Number.NaN) - expected),
      `${what} ${actual}, not ${expected}`,
    ).toBeLessThanOrEqual(tolerance);
  } else expect(actual, what).toBe(expected);
};

/** What the rounding of doubles may make of a level, dB. */
export const TINY = 1e-9;

/** Half of the last of so many printed digits behind the point, and room for the double's own rounding. */
export const printed = (digits: number): number => 0.5 * 10 ** -digits + TINY;
