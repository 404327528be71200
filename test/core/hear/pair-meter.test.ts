import { describe, expect, it } from "vitest";
import { pairMeter } from "../../../src/core/hear/pair-meter";
import { newBank } from "../../../src/core/measure/bank";
import { PLAIN_LOOPS } from "../../../src/core/measure/plain-loops";
import { seeded } from "../check/simulate";

const RATE = 48_000;
const SECOND = RATE;

const made = (seconds: number, of: (i: number) => number) =>
  Float32Array.from({ length: Math.round(seconds * RATE) }, (_, i) => of(i));
const tone =
  (gain: number, hertz = 997, phase = 0) =>
  (i: number) =>
    gain * Math.sin((2 * Math.PI * hertz * i) / RATE + phase);
const nothing = () => 0;

const metered = (left: Float32Array, right: Float32Array, block = 128) => {
  const meter = pairMeter(RATE);
  for (let at = 0; at < left.length; at += block)
    meter.take(left.subarray(at, at + block), right.subarray(at, at + block));
  return meter;
};

describe("meters of a pair", () => {
  it("read what a recording of the same samples measures", () => {
    const random = seeded(1);
    const left = made(1.2, (i) => 0.5 * tone(0.7, 11_025, 0.8)(i) + 0.2 * (2 * random() - 1));
    const right = made(1.2, (i) => tone(0.3, 440)(i) + 0.1 * (2 * random() - 1));
    const bank = newBank(
      RATE,
      [
        [1, 0],
        [0, 1],
      ],
      PLAIN_LOOPS,
    );
    for (let at = 0; at < left.length; at += bank.step) {
      bank.rows[0]?.set(left.subarray(at, at + bank.step), bank.start);
      bank.rows[1]?.set(right.subarray(at, at + bank.step), bank.start);
      bank.push(Math.min(bank.step, left.length - at));
    }
    const { tracks } = bank.finish();
    const { sides } = metered(left, right).read();
    sides.forEach((side, at) => {
      expect(side.maxPeak).toBeCloseTo(tracks[at]?.peak ?? 0, 9);
      expect(side.maxRms).toBeCloseTo(tracks[at]?.fast ?? 0, 9);
      expect(side.maxTruePeak).toBeCloseTo(tracks[at]?.truePeak ?? 0, 6);
      expect(side.maxTruePeak).toBeGreaterThanOrEqual(side.maxPeak);
    });
  });

  it("read the mean level of all that came since the reset, and over how long", () => {
    const left = made(4, (i) => (i < 2 * SECOND ? tone(0.5)(i) : 0));
    const meter = metered(left, made(4, tone(0.25)));
    // Half of the time, so half of the power.
    const level = (gain: number): number => 20 * Math.log10(gain) - 10 * Math.log10(2);
    expect(meter.read().sides[0].meanRms).toBeCloseTo(level(0.5) - 10 * Math.log10(2), 3);
    expect(meter.read().sides[1].meanRms).toBeCloseTo(level(0.25), 3);
    expect(meter.read().seconds).toBe(4);
    meter.reset();
    expect(meter.read().sides[1].meanRms).toBe(Number.NEGATIVE_INFINITY);
    expect(meter.read().seconds).toBe(0);
    meter.take(left.subarray(0, SECOND), left.subarray(0, SECOND));
    expect(meter.read().sides[1].meanRms).toBeCloseTo(level(0.5), 3);
    expect(meter.read().seconds).toBe(1);
  });

  it("read the difference and the correlation of the last second", () => {
    const left = made(2, (i) => (i < SECOND / 2 ? tone(0.9)(i) : tone(0.1)(i)));
    const right = left.map((sample, i) => (i < SECOND / 2 ? 0 : -2 * sample));
    const { difference, correlation, kind } = metered(left, right).read();
    expect(difference).toBeCloseTo(20 * Math.log10(2), 3);
    expect(correlation).toBeCloseTo(-1, 6);
    expect(kind).toBe("pair");
  });

  it("are the same by blocks of any length", () => {
    const random = seeded(2);
    const left = made(0.7, () => random() - 0.5);
    const right = made(0.7, () => 0.3 * (random() - 0.5));
    const [a, b] = [metered(left, right, 128).read(), metered(left, right, 997).read()];
    expect(b.difference).toBeCloseTo(a.difference, 9);
    expect(b.sides[0].rms).toBeCloseTo(a.sides[0].rms, 9);
    expect(b.sides[1].maxPeak).toBe(a.sides[1].maxPeak);
  });

  it("hold what was largest until they are reset", () => {
    const left = made(2, (i) => (i < SECOND ? tone(0.8)(i) : tone(0.05)(i)));
    const meter = metered(
      left,
      left.map((sample) => sample / 2),
    );
    expect(meter.read().sides[0].maxPeak).toBeCloseTo(20 * Math.log10(0.8), 2);
    expect(meter.read().sides[0].peak).toBeCloseTo(20 * Math.log10(0.05), 2);
    meter.reset();
    expect(meter.read().sides[0].maxPeak).toBe(Number.NEGATIVE_INFINITY);
    const more = made(0.2, tone(0.05));
    meter.take(more, more);
    expect(meter.read().sides[0].maxPeak).toBeCloseTo(20 * Math.log10(0.05), 2);
    // The needle stays where it was.
    expect(meter.read().sides[0].rms).toBeGreaterThan(-30.5);
  });

  it.each([
    ["silent", nothing, nothing],
    ["silent", tone(0.00005), tone(0.00003)],
    ["left-only", tone(0.5), nothing],
    ["right-only", tone(0.0001), tone(0.5)],
    ["identical", tone(0.5), tone(0.5)],
    ["pair", tone(0.5), tone(0.25)],
    ["pair", tone(0.5), tone(0.5, 997, 0.01)],
  ] as const)("say what the pair is: %s", (kind, left, right) => {
    const meter = metered(made(1.5, left), made(1.5, right));
    expect(meter.read().kind).toBe(kind);
    expect(meter.read().correlation === null).toBe(kind !== "pair" && kind !== "identical");
  });

  it("count clipping, and say so for a second", () => {
    const left = made(0.5, tone(1.4)).map((sample) => Math.max(-1, Math.min(1, sample)));
    const meter = metered(left, made(0.5, tone(0.3)));
    expect(meter.read().overload).toBe(true);
    expect(meter.read().sides[0].clipped).toBeGreaterThan(100);
    expect(meter.read().sides[1].clipped).toBe(0);
    meter.take(made(1.2, tone(0.3)), made(1.2, tone(0.2)));
    expect(meter.read().overload).toBe(false);
    expect(meter.read().sides[0].clipped).toBeGreaterThan(100);
  });

  it("read silence before the first sample, and no NaN", () => {
    const { kind, difference, correlation, sides } = pairMeter(RATE).read();
    expect(kind).toBe("silent");
    expect(difference).toBe(0);
    expect(correlation).toBe(null);
    expect(sides[0].rms).toBe(Number.NEGATIVE_INFINITY);
  });
});
