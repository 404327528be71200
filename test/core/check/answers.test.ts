import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ANSWER_MODEL, ANSWERS, answerShares, withSlips } from "../../../src/core/check/answers";
import type { EarImage } from "../../../src/core/check/wiring";

const image = (left: number, right: number, inverted = false): EarImage => ({
  sides: [left, right],
  inverted,
});
/** An image this many dB to the right, the louder ear at 0 dB. */
const off = (difference: number, inverted = false): EarImage =>
  difference >= 0
    ? image(10 ** (-difference / 20), 1, inverted)
    : image(1, 10 ** (difference / 20), inverted);

describe("what people answer", () => {
  it("says middle below 1 dB", () => {
    expect(answerShares(off(0.99), off(0))).toEqual([0, 1, 0, 0, 0]);
  });

  it("says the side from 15 dB on, and for one ear alone", () => {
    expect(answerShares(off(15.01), off(0))).toEqual([0, 0, 1, 0, 0]);
    expect(answerShares(off(-15.01), off(0))).toEqual([1, 0, 0, 0, 0]);
    expect(answerShares(image(1, 0), off(0))).toEqual([1, 0, 0, 0, 0]);
  });

  it("meets every grade of the table and is straight between two of them", () => {
    for (const { at, share } of ANSWER_MODEL.side)
      expect(answerShares(off(at), off(0))[2]).toBeCloseTo(share, 9);
    expect(answerShares(off(2), off(0))[2]).toBeCloseTo(0.3, 9);
  });

  it("says nothing for silence, and more and more so from 20 to 40 dB below the plan", () => {
    expect(answerShares(image(0, 0), off(0))).toEqual([0, 0, 0, 1, 0]);
    expect(answerShares(image(0.1001, 0), image(1, 0))[3]).toBe(0);
    expect(answerShares(image(10 ** (-30 / 20), 0), image(1, 0))[3]).toBeCloseTo(0.5, 9);
    expect(answerShares(image(0.0099, 0), image(1, 0))[3]).toBe(1);
  });

  it("cannot place an inverted middle, but places what only one ear gets", () => {
    expect(answerShares(off(0, true), off(0))).toEqual([0, 0, 0, 0, 1]);
    expect(answerShares(off(20, true), off(0))).toEqual([0, 0, 1, 0, 0]);
  });

  it("spreads slips over the other four answers", () => {
    const chances = withSlips([1, 0, 0, 0, 0], 0.05);
    expect(chances[0]).toBeCloseTo(0.95, 12);
    for (const other of chances.slice(1)) expect(other).toBeCloseTo(0.0125, 12);
  });

  it("is a distribution, mirrored with the image", () => {
    const gain = fc.oneof(fc.constant(0), fc.double({ min: 1e-3, max: 4, noNaN: true }));
    fc.assert(
      fc.property(
        gain,
        gain,
        fc.boolean(),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (l, r, inverted, slip) => {
          const shares = answerShares(image(l, r, inverted), off(0));
          const chances = withSlips(shares, slip);
          expect(chances.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
          expect(Math.min(...chances)).toBeGreaterThanOrEqual(-1e-12);
          const [left, middle, right, nothing, unclear] = answerShares(image(r, l, inverted), off(0));
          [right, middle, left, nothing, unclear].forEach((share, at) => {
            expect(shares[at]).toBeCloseTo(share as number, 12);
          });
        },
      ),
    );
    expect(ANSWERS).toHaveLength(5);
  });
});
