import { expect, it } from "vitest";
import { levelOf, levelOfPower } from "../../src/core/level/decibels";
import type { TrackPlace } from "../../src/core/measure/bus-gains";
import { toRecording } from "../../src/measure/recording";
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

  const { rms, playing, peak, truePeak, fast, slow } = figures.tracks[1] ?? {};
  expect(channels[1]).toEqual({ channel: "snare", rms, playing, peak, truePeak, fast, slow });

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
