import { describe, expect, it } from "vitest";
import { figuresOf } from "../../measure/job";
import { expectNear } from "../../near";

/** Frames of a step of 50 ms. */
const STEP = 2400;

/** Half of full scale throughout, with other samples at some places. */
const track = (length: number, other: { readonly [at: number]: number }): Float64Array =>
  Float64Array.from({ length }, (_, i) => other[i] ?? 0.5);

describe("samples that are no audio", () => {
  it.each([
    ["no number", Number.NaN],
    ["beyond +120 dBFS", -1.001e6],
    ["infinite", Number.NEGATIVE_INFINITY],
  ])("one that is %s counts as silence and once, wherever it stands", async (_, sample) => {
    for (const at of [0, 100, STEP - 1, STEP, 2 * STEP - 1, 3 * STEP - 1]) {
      const [figures] = (await figuresOf([track(3 * STEP, { [at]: sample })])).tracks;
      expect(figures).toMatchObject({ unusable: 1, clipped: 0 });
      expectNear(figures?.peak ?? null, 20 * Math.log10(0.5), 1e-12);
      expectNear(figures?.offset ?? null, (0.5 * (3 * STEP - 1)) / (3 * STEP), 1e-12);
    }
  });

  it("one of exactly +120 dBFS is still a sample, beside one that is none too", async () => {
    const [figures] = (await figuresOf([track(STEP, { 7: 1e6, 8: Number.NaN })])).tracks;
    expect(figures?.unusable).toBe(1);
    expect(figures?.peak).toBe(120);
  });
});
