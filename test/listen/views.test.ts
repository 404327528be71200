import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { unrelatedProducts } from "../../src/core/measure/covariance";
import { blockBegin, productsOver } from "../../src/core/measure/part";
import type { Sides } from "../../src/core/model/units";
import { gainsOf, levelled, type ViewGains, type Views } from "../../src/listen/views";
import { runJob } from "../../src/measure/engine";
import { readExcerpt } from "../../src/measure/excerpt";
import type { Job } from "../../src/measure/protocol";
import { file } from "../measure/job";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";

const gain = fc.double({ min: -2, max: 2, noNaN: true });
const view = fc.array(fc.tuple(gain, gain), { minLength: 3, maxLength: 3 });
const powers = [1, 0.25, 0.01];
/** Of voices that share nothing: packed row by row, each with itself only. */
const products = Float64Array.of(1, 0, 0.25, 0, 0, 0.01);
const energy = (gains: ViewGains): number =>
  gains.reduce((sum, [l, r], i) => sum + (l * l + r * r) * (powers[i] ?? 0), 0);

describe("three views at one loudness", () => {
  it("all have the energy of the softest, none is raised, no image moves", () => {
    fc.assert(
      fc.property(view, view, view, (foh, now, repaired) => {
        const before = { foh, now, repaired };
        fc.pre(Object.values(before).every((g) => energy(g) > 1e-9));
        const after = levelled(before, products);
        const softest = Math.min(...Object.values(before).map(energy));
        for (const name of ["foh", "now", "repaired"] as const) {
          expect(Math.abs(energy(after[name]) / softest - 1)).toBeLessThan(1e-12);
          after[name].forEach(([l, r], i) => {
            const [wasL, wasR] = before[name][i] as Sides;
            expect(Math.abs(l)).toBeLessThanOrEqual(Math.abs(wasL) * (1 + 1e-12));
            expect(Math.abs(l * wasR - r * wasL)).toBeLessThan(1e-12);
          });
        }
      }),
    );
  });

  it("a silent view stays silent and silences no other", () => {
    const loud: ViewGains = [[1, 0]];
    const after = levelled({ foh: loud, now: [[0, 0]], repaired: [[0, 0.5]] }, Float64Array.of(1));
    expect(after).toEqual({ foh: [[0.5, 0]], now: [[0, 0]], repaired: [[0, 0.5]] });
  });
});

describe("gains of a view", () => {
  it("are the listener's sides; what the listener does not get is silent", () => {
    const rows = [{ channel: "kick", sides: [0.7, 0.7] }] as unknown as Parameters<typeof gainsOf>[0]["rows"];
    expect(gainsOf({ rows }, ["hat", "kick"])).toEqual([
      [0, 0],
      [0.7, 0.7],
    ]);
  });
});

const RATE = 48_000;
const SECONDS = 12;

/** Three tracks that share most of what they hold, the last turned over; what they share changes from second to second. */
const correlated: readonly Float64Array[] = [1, 0.8, -0.7].map((share, t) => {
  const own = noise(t + 1);
  const common = noise(9);
  return Float64Array.from({ length: SECONDS * RATE }, (_, i) => {
    const second = Math.floor(i / RATE);
    return 0.1 * (1 + (second % 4)) * share * common() + 0.03 * (1 + ((second + t) % 3)) * own();
  });
});

/** Mean power of both ears, mixed sample by sample. */
const mixedPower = (gains: ViewGains, voices: readonly ArrayLike<number>[]): number => {
  let sum = 0;
  const length = voices[0]?.length ?? 0;
  for (let i = 0; i < length; i += 1)
    for (const ear of [0, 1] as const) {
      const x = gains.reduce((all, sides, v) => all + sides[ear] * (voices[v]?.[i] ?? 0), 0);
      sum += x * x;
    }
  return sum / length;
};

/** Wide, swapped at another level, and both sides in one. */
const folding: Views = {
  foh: [
    [0.9, 0.1],
    [0.2, 0.8],
    [0.7, 0.7],
  ],
  now: [
    [0.1, 0.9],
    [0.8, 0.2],
    [0.5, -0.5],
  ],
  repaired: [
    [1, 1],
    [1, 1],
    [1.4, 1.4],
  ],
};

describe("recorded voices, which correlate", () => {
  it.each([
    [0, SECONDS],
    [3.3, 4],
    [9.1, 2.4],
  ])(
    "from %d s for %d s: all three views are equally loud, mixed sample by sample",
    async (about, length) => {
      const job: Job = {
        inputs: correlated.map((track, t) =>
          file(`${t}.wav`, wavFile([track], { coding: "float", width: 8 })),
        ),
        tracks: correlated.map((_, input) => ({ input, channel: 0, gains: [1, 1] })),
        align: "start",
      };
      const outcome = await runJob(job, () => undefined);
      if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
      const { figures } = outcome.measurement;
      const from = blockBegin(figures, about);
      expect(about - from).toBeGreaterThanOrEqual(0);
      expect(about - from).toBeLessThan(0.4);
      const excerpt = await readExcerpt(job, from, length);
      const voices = excerpt?.tracks ?? [];
      const before = Object.values(folding).map((gains) => mixedPower(gains, voices));
      const after = levelled(folding, productsOver(figures, from, length));
      for (const gains of Object.values(after))
        expect(Math.abs(mixedPower(gains, voices) / Math.min(...before) - 1)).toBeLessThan(1e-6);
      // Taken as if they shared nothing they would be decibels apart.
      const apart = levelled(folding, unrelatedProducts(voices, voices[0]?.length ?? 0));
      const powers = Object.values(apart).map((gains) => mixedPower(gains, voices));
      expect(10 * Math.log10(Math.max(...powers) / Math.min(...powers))).toBeGreaterThan(2);
    },
  );

  it("a fold that cancels out but for rounding is silent, and silences no other", () => {
    // Two tracks that are each other turned over, and gains that differ in their last digit.
    const turned = Float64Array.of(0.1, -0.1, 0.1);
    const fold: ViewGains = [
      [0.7, 0.7],
      [0.1 * 7, 0.1 * 7],
    ];
    const wide = (gain: number): ViewGains => [
      [gain, 0],
      [0, gain],
    ];
    const after = levelled({ foh: wide(1), now: fold, repaired: wide(0.5) }, turned);
    expect(after).toEqual({ foh: wide(0.5), now: fold, repaired: wide(0.5) });
  });

  it("where the blocks were too many to keep, the whole recording stands for the part", () => {
    const whole = Float64Array.of(0.25);
    const figures = { products: whole, blocks: null } as unknown as Parameters<typeof productsOver>[0];
    expect(productsOver(figures, 3, 8)).toBe(whole);
  });
});
