import { describe, expect, it } from "vitest";
import { levelOf, levelOfPower } from "../../src/core/level/decibels";
import { correlationOf } from "../../src/core/measure/covariance";
import { levelThrough } from "../../src/core/measure/levels";
import type { Sides } from "../../src/core/model/units";
import { expectNear } from "../near";
import { TABLE_4 } from "../tables/iec61672";
import { noise } from "../tools/chance.mjs";
import { figuresOf, numbersIn } from "./job";

const RATE = 48_000;
const make = (seconds: number, at: (i: number) => number): Float64Array =>
  Float64Array.from({ length: Math.round(seconds * RATE) }, (_, i) => at(i));
const sine = (frequency: number, seconds: number, amplitude = 1): Float64Array =>
  make(seconds, (i) => amplitude * Math.sin((2 * Math.PI * frequency * i) / RATE));

describe("signals whose figures are known", () => {
  it("a sine: crest 3.0103 dB", async () => {
    const [track] = (await figuresOf([sine(997, 1, 0.5)])).tracks;
    expectNear(track?.rms ?? null, levelOf(0.5) + levelOfPower(0.5), 1e-9);
    expectNear(track?.peak ?? null, levelOf(0.5), 1e-4);
    expectNear(track?.crest ?? null, 3.0103, 1e-4);
    expectNear(track?.gatedRms ?? null, track?.rms ?? Number.NaN, 1e-3);
    expect(track).toMatchObject({ clipped: 0, unusable: 0, silent: false });
  });

  it("a square: crest 0; a triangle: 4.7712 dB", async () => {
    const square = make(1, (i) => (i % 100 < 50 ? 0.5 : -0.5));
    const triangle = make(1, (i) => Math.abs((i % 4800) / 1200 - 2) - 1);
    const { tracks } = await figuresOf([square, triangle]);
    expectNear(tracks[0]?.crest ?? null, 0, 1e-9);
    expectNear(tracks[1]?.crest ?? null, 4.7712, 1e-4);
  });

  it("even noise: rms 1/√3 of its peak", async () => {
    const random = noise(3);
    const [track] = (await figuresOf([make(5, random)])).tracks;
    // 240,000 samples: the rms of even noise strays by about 0.004 dB.
    expectNear(track?.rms ?? null, levelOfPower(1 / 3), 0.02);
  });

  it("an offset is the mean", async () => {
    const [track] = (await figuresOf([make(1, (i) => 0.1 + 0.2 * Math.sin((2 * Math.PI * i) / 480))])).tracks;
    expectNear(track?.offset ?? null, 0.1, 1e-12);
  });

  it("silence is −∞ everywhere and no figure is NaN", async () => {
    const figures = await figuresOf([new Float64Array(30_000), new Float64Array(30_000)]);
    for (const track of figures.tracks)
      expect(track).toMatchObject({
        rms: Number.NEGATIVE_INFINITY,
        gatedRms: Number.NEGATIVE_INFINITY,
        peak: Number.NEGATIVE_INFINITY,
        truePeak: Number.NEGATIVE_INFINITY,
        fast: Number.NEGATIVE_INFINITY,
        crest: 0,
        silent: true,
      });
    expect(figures.loudest).toBeNull();
    expect(correlationOf(figures.products, [1, 0], [0, 1])).toBe(0);
    expect(numbersIn(figures).filter(Number.isNaN)).toEqual([]);
  });

  it("clipped runs: three or more at full scale, across the ends of steps too", async () => {
    const x = new Float64Array(6000);
    const set = (at: number, count: number, value = 1) => x.fill(value, at, at + count);
    set(10, 2);
    set(20, 3);
    set(100, 9, -1);
    set(2398, 4);
    set(4799, 2);
    // Two at the end of a stretch of samples, one at the beginning of the next but one: no run.
    set(238, 2);
    set(480, 1);
    const figures = await figuresOf([x], [[1, 0]], { width: 2 });
    expect(figures.tracks[0]?.clipped).toBe(3);
  });
});

describe("IEC 61672-1:2013 Table 4 through the whole measurement", () => {
  it.each(TABLE_4)("a toneburst of %d ms", async (milliseconds, fast, _exposure, slow) => {
    const length = Math.round((milliseconds / 1000) * RATE);
    const burst = make(milliseconds / 1000 + 0.3, (i) =>
      i < 480 || i >= 480 + length ? 0 : Math.sin((2 * Math.PI * 4000 * (i - 480)) / RATE),
    );
    const [track] = (await figuresOf([burst])).tracks;
    const oneDigit = (level: number): number => Math.round((level - levelOfPower(0.5)) * 10) / 10 + 0;
    expect(oneDigit(track?.fast ?? Number.NaN)).toBe(fast);
    if (slow !== null) expect(oneDigit(track?.slow ?? Number.NaN)).toBe(slow);
  });
});

describe("level while playing", () => {
  it("pauses do not count; what is 20 dB below the loudest stretch does not either", async () => {
    // 400 ms of tone, 3.6 s of a tone 25 dB down, twice.
    const tone = make(
      8,
      (i) =>
        (i % (4 * RATE) < 0.4 * RATE ? 0.5 : 0.5 * 10 ** (-25 / 20)) *
        Math.sin((2 * Math.PI * 997 * i) / RATE),
    );
    const [track] = (await figuresOf([tone])).tracks;
    expectNear(track?.gatedRms ?? null, levelOf(0.5) + levelOfPower(0.5), 0.01);
    expectNear(
      track?.rms ?? null,
      levelOf(0.5) + levelOfPower(0.5) + levelOfPower(0.1 + 0.9 * 10 ** -2.5),
      0.01,
    );
    // Ten blocks of four seconds, of which one is loud.
    expect(track?.activity).toBe(0.1);
    // 15 dB down counts.
    const soft = make(
      8,
      (i) =>
        (i % (4 * RATE) < 0.4 * RATE ? 0.5 : 0.5 * 10 ** (-15 / 20)) *
        Math.sin((2 * Math.PI * 997 * i) / RATE),
    );
    const [counted] = (await figuresOf([soft])).tracks;
    expectNear(counted?.gatedRms ?? null, counted?.rms ?? Number.NaN, 1e-4);
  });
});

const gains: readonly Sides[] = [
  [1, 0],
  [-0.5, 0.5],
  [0.3, 0.9],
  [0, 0],
  [0.7, 0.7],
];
const hits = (seed: number): Float64Array => {
  const random = noise(seed);
  return make(1.3, (i) => random() * Math.exp(-((i + seed * 977) % 11_003) / 900));
};
const tracks = [1, 2, 3, 4, 5].map(hits);
const mixed = (gain: (sides: Sides) => number): Float64Array =>
  make(1.3, (i) => tracks.reduce((sum, x, t) => sum + gain(gains[t] as Sides) * (x[i] as number), 0));

describe("the real sum", () => {
  const mixes = { left: ([l]: Sides) => l, right: ([, r]: Sides) => r, mono: ([l, r]: Sides) => l + r };
  it.each(Object.entries(mixes))("%s is what its samples, mixed beforehand, measure", async (name, gain) => {
    const figures = await figuresOf(tracks, gains);
    const [alone] = (await figuresOf([mixed(gain)])).tracks;
    const mix = figures.mixes[name as keyof typeof mixes];
    expectNear(mix.rms, alone?.rms ?? Number.NaN, 1e-9);
    expectNear(mix.peak, alone?.peak ?? Number.NaN, 1e-9);
    expectNear(mix.truePeak, alone?.truePeak ?? Number.NaN, 1e-9);
    expectNear(mix.gatedRms, alone?.gatedRms ?? Number.NaN, 1e-5);
    const at = Math.round(mix.peakAt * RATE);
    expectNear(Math.abs(mix.parts.reduce((sum, p) => sum + p, 0)), 10 ** (mix.peak / 20), 1e-12);
    mix.parts.forEach((part, t) => {
      expectNear(part, gain(gains[t] as Sides) * (tracks[t]?.[at] as number), 1e-12);
    });
  });

  it("levels through other gains follow without the samples", async () => {
    const other: readonly Sides[] = [
      [0.2, 1],
      [1, -1],
      [0, 0],
      [0.6, 0.1],
      [-0.4, 0.8],
    ];
    const first = await figuresOf(tracks, gains);
    const again = await figuresOf(tracks, other);
    for (const [name, side] of [
      ["left", 0],
      ["right", 1],
    ] as const) {
      const level = levelThrough(
        first,
        other.map((g) => g[side]),
      );
      expectNear(level.rms, again.mixes[name].rms, 1e-9);
    }
  });

  it("a track that plays nothing hides no peak of the side that it does not go to", async () => {
    const { mixes, tracks: alone } = await figuresOf(
      [sine(400, 0.1, 0.5), new Float64Array(4800)],
      [
        [1, 0],
        [0, 1],
      ],
    );
    expect(mixes.left.peak).toBe(alone[0]?.peak);
    expect(mixes.right.peak).toBe(Number.NEGATIVE_INFINITY);
  });

  it("of several equal peaks the first is named, with who made it", async () => {
    const [kick, snare] = [new Float64Array(9600), new Float64Array(9600)];
    kick[1200] = 0.5;
    snare[1300] = 0.5;
    snare[7200] = -0.5;
    const { left } = (
      await figuresOf(
        [kick, snare],
        [
          [1, 0],
          [1, 0],
        ],
      )
    ).mixes;
    expect(left.peakAt).toBe(1200 / RATE);
    expect(left.parts).toEqual([0.5, 0]);
  });

  it("a channel against itself turned over cancels to −∞", async () => {
    const turned = (tracks[0] as Float64Array).map((x) => -x);
    const figures = await figuresOf(
      [tracks[0] as Float64Array, turned],
      [
        [1, 0],
        [1, 0],
      ],
    );
    expect(figures.mixes.left).toMatchObject({
      rms: Number.NEGATIVE_INFINITY,
      peak: Number.NEGATIVE_INFINITY,
    });
    expectNear(correlationOf(figures.products, [1, 0], [0, 1]), -1, 1e-12);
  });
});

describe("correlation", () => {
  it("of a mix with its part is what the powers say", async () => {
    const a = hits(7);
    const b = hits(8);
    const both = a.map((x, i) => 0.6 * x + 0.8 * (b[i] as number));
    const { products } = await figuresOf([a, b, both]);
    const alone = (t: number): number[] => [0, 1, 2].map((track) => (track === t ? 1 : 0));
    const power = (x: Float64Array, y: Float64Array) =>
      x.reduce((sum, v, i) => sum + v * (y[i] as number), 0);
    const expected = (x: Float64Array, y: Float64Array) => power(x, y) / Math.sqrt(power(x, x) * power(y, y));
    [a, b, both].forEach((x, i) => {
      [a, b, both].forEach((y, j) => {
        expectNear(correlationOf(products, alone(i), alone(j)), expected(x, y), 1e-12);
      });
    });
  });

  it.each([1, 2, 3, 4, 7, 8])("%d tracks: every product is found", async (count) => {
    const some = Array.from({ length: count }, (_, i) => hits(i + 20));
    const { products } = await figuresOf(some);
    let at = 0;
    for (let i = 0; i < count; i += 1)
      for (let j = 0; j <= i; j += 1) {
        const sum = (some[i] as Float64Array).reduce((s, x, n) => s + x * (some[j]?.[n] as number), 0);
        expectNear(products[at] ?? null, sum / (some[i]?.length ?? 0), 1e-12);
        at += 1;
      }
    expect(products.length).toBe(at);
  });
});

describe("level over time", () => {
  it("the loudest moment is found, with who made it", async () => {
    const quiet = sine(400, 2, 0.1);
    const burst = make(
      2,
      (i) => (i >= 1.5 * RATE && i < 1.55 * RATE ? 0.5 : 0) * Math.sin((2 * Math.PI * 400 * i) / RATE),
    );
    const figures = await figuresOf(
      [quiet, burst],
      [
        [1, -0.5],
        [0.1, 1],
      ],
    );
    expect(figures.loudest?.side).toBe("right");
    expectNear(figures.loudest?.at ?? null, 1.5, 1e-9);
    expectNear(figures.loudest?.shares[1] ?? null, 0.25 / (0.25 + 0.25 * 0.01), 1e-6);
    expectNear(figures.loudest?.shares.reduce((s, x) => s + x, 0) ?? null, 1, 1e-12);
    expect(figures.course.powers.length).toBe(40 * figures.course.columns);
    expectNear(figures.course.powers[30 * figures.course.columns + 1] ?? null, 0.125, 1e-6);
  });
});
