import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exposureLevel } from "../../../src/core/level/arithmetic";
import { levelOfPower } from "../../../src/core/level/decibels";
import { timeWeighting } from "../../../src/core/measure/time-weighting";
import { expectNear } from "../../near";
import { DECAY, FAST_AGAINST_SLOW, TABLE_4 } from "../../tables/iec61672";

const RATE = 48_000;
/** Level of a full-scale sine, to which the table's differences refer. */
const STEADY = levelOfPower(1 / 2);

const sine = (frequency: number, seconds: number): Float64Array =>
  Float64Array.from({ length: Math.round(seconds * RATE) }, (_, i) =>
    Math.sin((2 * Math.PI * frequency * i) / RATE),
  );
const silence = (seconds: number): Float64Array => new Float64Array(Math.round(seconds * RATE));
const oneDigit = (level: number): number => Math.round(level * 10) / 10 + 0;

describe("IEC 61672-1:2013 Table 4: real 4 kHz tonebursts at 48 kHz", () => {
  it.each(TABLE_4)("%d ms", (milliseconds, fast, exposure, slow) => {
    const burst = sine(4000, milliseconds / 1000);
    const meter = timeWeighting(RATE);
    meter.push(silence(0.01));
    meter.push(burst);
    meter.push(silence(0.2));
    const meanSquare = burst.reduce((sum, x) => sum + x * x, 0) / burst.length;

    expect(oneDigit(meter.fast().max - STEADY)).toBe(fast);
    expect(oneDigit(exposureLevel(levelOfPower(meanSquare), burst.length / RATE) - STEADY)).toBe(exposure);
    if (slow !== null) expect(oneDigit(meter.slow().max - STEADY)).toBe(slow);

    // Equation (7), 10 lg(1 − e^(−Tb/τ)): the tone's own ripple at 8 kHz adds less than 0.001 dB.
    const seconds = milliseconds / 1000;
    expectNear(meter.fast().max - STEADY, levelOfPower(1 - Math.exp(-seconds / 0.125)), 1e-3);
    expectNear(meter.slow().max - STEADY, levelOfPower(1 - Math.exp(-seconds)), 1e-3);
  });

  it("holds all 33 printed values", () => {
    expect(TABLE_4.flat().filter((v) => v !== null).length - TABLE_4.length).toBe(33);
  });
});

describe("IEC 61672-1:2013, 5.8", () => {
  it("decays after a steady 4 kHz tone stops", () => {
    const meter = timeWeighting(RATE);
    meter.push(sine(4000, 5));
    const before = [meter.fast().now, meter.slow().now] as const;
    meter.push(silence(1));
    expect(oneDigit(before[0] - meter.fast().now)).toBe(DECAY.fast);
    expect(oneDigit(before[1] - meter.slow().now)).toBe(DECAY.slow);
    expect([meter.fast().max, meter.slow().max]).toEqual([
      expect.closeTo(before[0], 3),
      expect.closeTo(before[1], 3),
    ]);
  });

  it("F and S agree on a steady 1 kHz tone", () => {
    const meter = timeWeighting(RATE);
    meter.push(sine(1000, 10));
    expect(Math.abs(meter.fast().now - meter.slow().now)).toBeLessThanOrEqual(FAST_AGAINST_SLOW);
    expectNear(meter.fast().now, STEADY, 0.01);
    expectNear(meter.slow().now, STEADY, 0.01);
  });
});

describe("a meter in pieces", () => {
  it("reads the same in blocks and in one go", () => {
    const tone = sine(997, 0.3);
    const [whole, blocks] = [timeWeighting(RATE), timeWeighting(RATE)];
    whole.push(tone);
    for (let at = 0; at < tone.length; at += 113) blocks.push(tone.subarray(at, at + 113));
    for (const weighting of ["fast", "slow"] as const) {
      expectNear(blocks[weighting]().now, whole[weighting]().now, 1e-12);
      expectNear(blocks[weighting]().max, whole[weighting]().max, 1e-12);
    }
  });

  it.each([
    ["fast", 0.125],
    ["slow", 1],
  ] as const)("%s: a maximum inside four samples whose end lies below the last one", (speed, tau) => {
    const rate = 100;
    const remains = Math.exp(-1 / (tau * rate));
    const meter = timeWeighting(rate);
    // The first sample lifts the average to its share; the ninth to 1.01 of that, and three samples later it is below.
    const samples = new Float64Array(12);
    samples[0] = 1;
    samples[8] = Math.sqrt(1.01 - remains ** 8);
    meter.push(samples);
    expect(1.01 * remains ** 3).toBeLessThan(1);
    expectNear(meter[speed]().max, levelOfPower(1.01 * (1 - remains)), 1e-11);
  });

  it("is the plain average sample by sample, its maximum too, however the blocks fall", () => {
    const block = fc.array(
      fc.double({ min: -1, max: 1, noNaN: true }).map((x) => x ** 5),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(fc.array(block, { minLength: 1, maxLength: 12 }), (blocks) => {
        const rate = 100; // so low that a few samples rise and fall by decibels
        const meter = timeWeighting(rate);
        const plain = [0.125, 1].map((tau) => ({ share: 1 - Math.exp(-1 / (tau * rate)), now: 0, max: 0 }));
        for (const samples of blocks) {
          meter.push(Float64Array.from(samples));
          for (const average of plain) {
            for (const x of samples) {
              average.now += average.share * (x * x - average.now);
              average.max = Math.max(average.max, average.now);
            }
          }
        }
        [meter.fast(), meter.slow()].forEach(({ now, max }, i) => {
          // What the meter calls silence, −300 dB, is lost: 10^−15 of −150 dB.
          if ((plain[i]?.now ?? 0) > 1e-15) expectNear(now, levelOfPower(plain[i]?.now ?? Number.NaN), 1e-11);
          if ((plain[i]?.max ?? 0) > 1e-15) expectNear(max, levelOfPower(plain[i]?.max ?? Number.NaN), 1e-11);
        });
      }),
    );
  });

  it("holds its response at another rate", () => {
    const meter = timeWeighting(8000);
    meter.push(new Float64Array(1000).fill(-1));
    expectNear(meter.fast().now, levelOfPower(1 - Math.exp(-1)), 1e-12);
    expectNear(meter.slow().now, levelOfPower(1 - Math.exp(-1 / 8)), 1e-12);
  });

  it("begins at silence, and comes back to it", () => {
    const meter = timeWeighting(8000);
    expect(meter.fast()).toEqual({ now: -Infinity, max: -Infinity });
    meter.push(new Float64Array([1]));
    meter.push(new Float64Array(8000 * 10));
    expect(meter.fast().now).toBe(-Infinity);
    expect(Number.isFinite(meter.fast().max)).toBe(true);
  });

  it("comes back to silence in S too, later than in F", () => {
    const meter = timeWeighting(100);
    meter.push(new Float64Array([1]));
    meter.push(new Float64Array(100 * 10));
    expect(meter.fast().now).toBe(-Infinity);
    // 100 samples a second, τ = 1 s: a share of 1 % falls by 43.4 dB in 10 s, and below −300 dB within 80 s.
    expectNear(meter.slow().now, levelOfPower(1 - Math.exp(-0.01)) - 100 * Math.LOG10E, 1e-9);
    meter.push(new Float64Array(100 * 70));
    expect(meter.slow().now).toBe(-Infinity);
  });
});
