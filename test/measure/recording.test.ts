import fc from "fast-check";
import { expect, it } from "vitest";
import { levelOf, levelOfPower } from "../../src/core/level/decibels";
import type { TrackPlace } from "../../src/core/measure/bus-gains";
import { MEASURED_RANGE } from "../../src/core/measure/range";
import { OVERSHOOT } from "../../src/core/measure/truepeak";
import { keepRecording } from "../../src/document/commands/recording";
import { exampleSetup } from "../../src/document/example";
import { readSetupText } from "../../src/document/read-setup";
import { activityOf, toRecording } from "../../src/measure/recording";
import { expectNear } from "../near";
import { noise } from "../tools/chance.mjs";
import { figuresOf } from "./job";

const random = [1, 2, 3].map(noise);
const [a, b, c] = random.map((next) => Float64Array.from({ length: 48_000 }, () => 0.5 * next())) as [
  Float64Array,
  Float64Array,
  Float64Array,
];
/** A snare, and a pair of overheads that hear it: together in the left, turned over and softer in the right. */
const left = a.map((x, i) => 0.5 * x + (b[i] as number));
const right = a.map((x, i) => -0.2 * x + 0.5 * (c[i] as number));
const places: readonly TrackPlace[] = [
  { channel: "oh", line: 0 },
  { channel: "snare", line: 0 },
  { channel: "oh", line: 1 },
];

it("figures of channels of one and of two channels", async () => {
  const figures = await figuresOf([left, a, right]);
  const { name, seconds, channels, correlation } = toRecording("Rehearsal", figures, places);
  expect([name, seconds]).toEqual(["Rehearsal", 1]);
  expect(channels.map((s) => s.channel)).toEqual(["oh", "snare"]);

  const { rms, gatedRms, activity, peak, truePeak, fast, slow } = figures.tracks[1] ?? {};
  expect(channels[1]).toEqual({ channel: "snare", rms, gatedRms, activity, peak, truePeak, fast, slow });

  const power = (x: Float64Array) => x.reduce((sum, v) => sum + v * v, 0) / x.length;
  const largest = (x: Float64Array) => x.reduce((top, v) => Math.max(top, Math.abs(v)), 0);
  expectNear(channels[0]?.rms ?? null, levelOfPower((power(left) + power(right)) / 2), 1e-9);
  expectNear(channels[0]?.peak ?? null, levelOf(Math.max(largest(left), largest(right))), 1e-9);

  // Correlation of two channels is that of their channels added plainly.
  const both = left.map((x, i) => x + (right[i] as number));
  const product = both.reduce((sum, x, i) => sum + x * (a[i] as number), 0) / both.length;
  const expected = product / Math.sqrt(power(both) * power(a));
  expect(expected).toBeGreaterThan(0.1);
  expectNear(correlation[0]?.[1] ?? null, expected, 1e-12);
  expectNear(correlation[1]?.[0] ?? null, expected, 1e-12);
  expect([correlation[0]?.[0], correlation[1]?.[1]]).toEqual([1, 1]);
});

it("a channel of silence has −∞ and no correlation", async () => {
  const figures = await figuresOf([new Float64Array(4800), a.slice(0, 4800)]);
  const { channels, correlation } = toRecording("x", figures, [
    { channel: "off", line: 0 },
    { channel: "snare", line: 0 },
  ]);
  expect(channels[0]).toMatchObject({ rms: Number.NEGATIVE_INFINITY, peak: Number.NEGATIVE_INFINITY });
  expect(correlation).toEqual([
    [1, 0],
    [0, 1],
  ]);
});

it("level of a step of the course", async () => {
  const figures = await figuresOf([a]);
  const step = a.slice(2400, 4800);
  const power = step.reduce((sum, x) => sum + x * x, 0) / step.length;
  const { powers, columns } = figures.course;
  expectNear(levelOfPower(powers[columns] as number), levelOfPower(power), 1e-5);
});

/** Gains of a track, dB, from what a file of 64-bit numbers can hold at all to beyond what counts as audio. */
const anyLevel = fc.double({ min: -900, max: 119, noNaN: true });

it("whatever is measured and kept is read again as it was, in a file too: one range for both", async () => {
  const setup = exampleSetup();
  const [first, second] = setup.channels.map((s) => s.id);
  const places: readonly TrackPlace[] = [
    { channel: first ?? "", line: 0 },
    { channel: second ?? "", line: 0 },
    { channel: second ?? "", line: 1 },
  ];
  const short = a.slice(0, 2400);
  await fc.assert(
    fc.asyncProperty(anyLevel, anyLevel, anyLevel, async (...levels) => {
      const figures = await figuresOf(levels.map((level) => short.map((x) => x * 10 ** (level / 20))));
      const kept = keepRecording(toRecording("x", figures, places), false).apply(setup);
      const read = readSetupText(JSON.stringify(kept));
      expect(read.ok && read.notes).toEqual([]);
      expect(read.ok && read.file.recording).toEqual(kept.recording);
    }),
    { numRuns: 40 },
  );
});

it("what is kept ends where a sample is taken for none, and what lies between samples", async () => {
  const top = Float64Array.from({ length: 2400 }, (_, i) => (i % 4 < 2 ? 1e6 : -1e6));
  const [track] = (await figuresOf([top])).tracks;
  expectNear(track?.peak ?? null, 120, 1e-9);
  expect(track?.truePeak).toBeGreaterThan(121);
  expect(20 * Math.log10(1e6 * OVERSHOOT)).toBeLessThan(MEASURED_RANGE.max);
  const faint = await figuresOf([a.slice(0, 2400).map((x) => x * 1e-21)]);
  expect(faint.tracks[0]?.peak).toBeLessThan(MEASURED_RANGE.min);
  expect(toRecording("x", faint, [{ channel: "s", line: 0 }]).channels[0]).toMatchObject({
    rms: Number.NEGATIVE_INFINITY,
    gatedRms: Number.NEGATIVE_INFINITY,
    peak: Number.NEGATIVE_INFINITY,
    truePeak: Number.NEGATIVE_INFINITY,
  });
});

it("activity of a channel of two channels keeps activity times gated power what both have in the mean", async () => {
  const block = 19_200;
  const bursts = (level: number, every: number): Float64Array =>
    Float64Array.from({ length: 10 * block }, (_, i) =>
      Math.floor(i / block) % every === 0 ? level * (a[i % a.length] ?? 0) : 0,
    );
  const figures = await figuresOf([bursts(1, 2), bursts(0.5, 5), new Float64Array(10 * block)]);
  expect(figures.tracks.map((t) => t.activity)).toEqual([0.5, 0.2, 0]);
  const power = (level: number | undefined) => 10 ** ((level ?? 0) / 10);
  const gated = figures.tracks.map((t) => power(t.gatedRms));
  const both = (gated[0] ?? 0) + (gated[1] ?? 0);
  expectNear(activityOf(figures, [0, 1]) * both, 0.5 * (gated[0] ?? 0) + 0.2 * (gated[1] ?? 0), 1e-12);
  expectNear(activityOf(figures, [1]), 0.2, 1e-12);
  expect(activityOf(figures, [2])).toBe(0);
});
