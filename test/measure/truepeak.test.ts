import { describe, expect, it } from "vitest";
import { PLAIN_LOOPS } from "../../src/core/measure/plain-loops";
import { OVERSHOOT, REACH, truePeakFinder } from "../../src/core/measure/truepeak";
import { expectNear } from "../near";
import { BURSTS, SINES, TRUE_PEAK_TOLERANCE } from "../tables/ebu3341";
import { noise } from "../tools/chance.mjs";
import { figuresOf } from "./job";

const RATE = 48_000;
const FADE = RATE / 100;

const faded = (samples: Float64Array, fade: number): Float64Array =>
  samples.map((x, i) => x * Math.min(1, i / fade, (samples.length - 1 - i) / fade));

const truePeakOf = async (samples: ArrayLike<number>): Promise<number> =>
  (await figuresOf([samples])).tracks[0]?.truePeak ?? Number.NaN;

const expectWithin = (level: number, target: number): void => {
  expect(level).toBeGreaterThanOrEqual(target + TRUE_PEAK_TOLERANCE[0]);
  expect(level).toBeLessThanOrEqual(target + TRUE_PEAK_TOLERANCE[1]);
};

/** Windowed-sinc low-pass at a part of the rate, long enough to leave no doubt; by itself, not the code's filter. */
const lowPass = (x: Float64Array, part: number): Float64Array => {
  const half = 400;
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const t = i - half;
    const window = 0.42 + 0.5 * Math.cos((Math.PI * t) / half) + 0.08 * Math.cos((2 * Math.PI * t) / half);
    return (t === 0 ? 2 * part : Math.sin(2 * Math.PI * part * t) / (Math.PI * t)) * window;
  });
  return x.map((_, n) => {
    let sum = 0;
    for (let k = -half; k <= half; k += 1) sum += (taps[k + half] as number) * (x[n + k] ?? 0);
    return sum;
  });
};

describe("EBU Tech 3341, Table 1, true peak", () => {
  it.each(SINES)("case %d: fs/%d at %d, %d°", async (_, part, amplitude, degrees, target) => {
    const sine = Float64Array.from(
      { length: RATE / 2 },
      (_, i) => amplitude * Math.sin((2 * Math.PI * i) / part + (degrees * Math.PI) / 180),
    );
    expectWithin(await truePeakOf(faded(sine, FADE)), target);
  });

  it.each(BURSTS)("case %d: one period at full scale, offset %d", async (_, offset, target) => {
    const fine = 4 * RATE;
    const length = fine / 10;
    // Both periods are whole numbers of fine samples (24 and 16), so the burst begins and ends at a zero crossing.
    const burst = 24 * 400;
    const samples = Float64Array.from({ length }, (_, i) =>
      i >= burst && i < burst + 16
        ? Math.sin((2 * Math.PI * (i - burst)) / 16)
        : 0.5 * Math.sin((2 * Math.PI * (i < burst ? i : i - burst - 16)) / 24),
    );
    const low = lowPass(faded(samples, fine / 100), 0.5 / 4);
    const taken = Float64Array.from({ length: length / 4 - 1 }, (_, i) => low[4 * i + offset] as number);
    expectWithin(await truePeakOf(taken), target);
  });
});

const LONGEST = 2000;
const peakBetween = truePeakFinder(PLAIN_LOOPS, LONGEST);

describe("peaks between samples", () => {
  it("a quarter-rate sine at 45° stands 3.01 dB above its samples", async () => {
    const sine = Float64Array.from(
      { length: 4800 },
      (_, i) => Math.SQRT1_2 * Math.sin((Math.PI * i) / 2 + Math.PI / 4),
    );
    const [track] = (await figuresOf([faded(sine, FADE)])).tracks;
    expectNear(track?.peak ?? null, 20 * Math.log10(0.5), 1e-9);
    // Under-read of four-fold oversampling at fs/4 at most 0.17 dB (BS.1770-5, Annex 2, attachment 1).
    expectNear(track?.truePeak ?? null, 20 * Math.log10(Math.SQRT1_2), 0.17);
  });

  /** From hiss to a slow swing to lone spikes, so that every rule for leaving out is used. */
  const signal = (seed: number): Float64Array => {
    const random = noise(seed);
    const smooth = (seed % 8) / 8;
    const lone = seed % 3;
    let last = 0;
    return Float64Array.from({ length: 700 }, (_, i) => {
      const rare = lone === 0 || Math.abs(random()) < 0.1 * lone ? 1 : 0;
      last = smooth * last + (1 - smooth) * rare * random() * Math.exp(-((i % 300) / 60));
      return last;
    });
  };
  const between = (x: Float64Array, best: number) => peakBetween(x, REACH, x.length - REACH, best);
  const oneByOne = (x: Float64Array): number => {
    let all = 0;
    for (let n = REACH; n < x.length - REACH; n += 1) all = Math.max(all, peakBetween(x, n, n + 1, 0));
    return all;
  };

  it("leaving out what cannot lead changes nothing, however close the best so far is", () => {
    for (let seed = 0; seed < 120; seed += 1) {
      const x = signal(seed);
      const all = oneByOne(x);
      for (const share of [0, 0.5, 0.9, 1 - 1e-9]) expect(between(x, all * share)).toBe(all);
      expect(between(x, all * 2)).toBe(all * 2);
    }
  });

  it("far beyond full scale and far below it, what is left out is the same", () => {
    for (let seed = 0; seed < 24; seed += 1) {
      const x = signal(seed);
      const all = oneByOne(x);
      for (const scale of [2 ** 16, 2 ** -16]) {
        const scaled = x.map((sample) => scale * sample);
        for (const share of [0, 0.9]) expect(between(scaled, scale * all * share)).toBe(scale * all);
      }
    }
  });

  it("the very last place is looked at, however many are taken in one go", () => {
    for (let places = 1; places <= 64; places += 1) {
      const x = new Float64Array(places + 2 * REACH);
      x.fill(0.5, REACH + places - 1, REACH + places + 1);
      const all = truePeakFinder(PLAIN_LOOPS, places)(x, REACH, REACH + places, 0);
      expectNear(all, 0.5 * 1.27, 0.01, `${places} places`);
    }
  });

  it("a place that stands out by its far neighbours is not left out, wherever they are looked at", () => {
    // Equal samples with the signs of a sinc: the most that a place can stand above its samples.
    for (let at = 40; at < 90; at += 1)
      for (const [reach, hole] of [
        [12, 0],
        [12, 1],
        [12, 3],
        [7, 2],
        [3, 1],
      ] as const) {
        for (const [before, behind] of [
          [1, 1],
          [0.3, 1],
          [1, 0.3],
        ] as const) {
          const x = new Float64Array(140);
          for (let k = hole; k < reach; k += 1) {
            x[at - k] = k % 2 === 0 ? before : -before;
            x[at + 1 + k] = k % 2 === 0 ? behind : -behind;
          }
          const all = oneByOne(x);
          for (const share of [0, 0.8, 1 - 1e-9]) expect(between(x, all * share)).toBe(all);
        }
      }
  });

  it("never beyond the bound that allows leaving out", () => {
    const random = noise(5);
    const x = Float64Array.from({ length: 400 }, () => Math.sign(random()));
    const top = peakBetween(x, REACH, 400 - REACH, 0);
    expect(top).toBeGreaterThan(1);
    expect(top).toBeLessThanOrEqual(OVERSHOOT);
  });

  it("at the very beginning, at the very end and across steps", async () => {
    // The pair of equal neighbours peaks between them, wherever it stands.
    const step = 2400;
    for (const at of [0, 1, 5, 200, step - 2, step - 1, step, step + 1, 2 * step - 1, 5000 - 2]) {
      const x = new Float64Array(5000);
      x[at] = 0.5;
      x[at + 1] = 0.5;
      expectNear(await truePeakOf(x), 20 * Math.log10(0.5 * 1.27), 0.1, `at ${at}`);
    }
  });

  it("of a mix: behind a larger sample, and at the very end", async () => {
    for (const at of [6000, 9998]) {
      const x = new Float64Array(10_000);
      x[100] = 0.5;
      x[at] = 0.45;
      x[at + 1] = 0.45;
      const { mixes, tracks } = await figuresOf(
        [x, new Float64Array(10_000)],
        [
          [1, 0],
          [1, 0],
        ],
      );
      expect(tracks[0]?.truePeak).toBeGreaterThan(20 * Math.log10(0.55));
      expect(mixes.left.truePeak).toBe(tracks[0]?.truePeak);
      expect(mixes.left.peak).toBe(tracks[0]?.peak);
    }
  });

  it.each([1, 6, 10])("of a mix: just before the last %d samples, which make no whole step", async (more) => {
    const step = 2400;
    const x = new Float64Array(step + more).fill(0.5, step - 2, step);
    const { mixes, tracks } = await figuresOf([x]);
    expect(tracks[0]?.truePeak).toBeGreaterThan(20 * Math.log10(0.55));
    expect(mixes.left.truePeak).toBe(tracks[0]?.truePeak);
  });

  it("at least the sample peak, for one single sample too", async () => {
    const [track] = (await figuresOf([[0.5]])).tracks;
    expect(track?.truePeak).toBe(track?.peak);
  });
});
