import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  correlatedLevelOf,
  exposureLevel,
  phaseSum,
  timeAverage,
  withoutBackground,
} from "../../../src/core/level/arithmetic";
import { coherentSum, energySum } from "../../../src/core/level/decibels";
import { expectNear } from "../../near";
import {
  ANTIPHASE_RESIDUAL,
  BACKGROUND,
  CORRELATION,
  PHASE,
  TIME_AVERAGES,
  TWO_LEVELS,
} from "../../tables/level-arithmetic";

const SILENCE = Number.NEGATIVE_INFINITY;
const level = fc.double({ min: -120, max: 140, noNaN: true });
const correlatedSum = (first: number, second: number, rho: number): number =>
  correlatedLevelOf([first, second], [[1, rho]]);
const correlation = fc.double({ min: -1, max: 1, noNaN: true });

describe("two levels with a correlation", () => {
  it.each(CORRELATION)("equal levels at %d", (rho, gain) => {
    expectNear(correlatedSum(0, 0, rho), gain, 1e-12);
    expectNear(correlatedSum(-7.3, -7.3, rho) + 7.3, gain, 1e-12);
  });

  it("in phase, in antiphase and with nothing in common, 0 to 30 dB apart", () => {
    for (const [difference, energy, inPhase, antiphase] of TWO_LEVELS) {
      expectNear(correlatedSum(0, -difference, 0), energy, 1e-12, `0 at ${difference} dB`);
      expectNear(correlatedSum(0, -difference, 1), inPhase, 1e-12, `1 at ${difference} dB`);
      expectNear(correlatedSum(0, -difference, -1), antiphase, 1e-11, `−1 at ${difference} dB`);
    }
    for (const [mismatch, residual] of ANTIPHASE_RESIDUAL) {
      expectNear(correlatedSum(0, -mismatch, -1), residual, 1e-11, `${mismatch} dB`);
    }
  });

  it("does not mind which is first, and silence is neutral", () => {
    fc.assert(
      fc.property(level, level, correlation, (a, b, rho) => {
        expectNear(correlatedSum(a, b, rho), correlatedSum(b, a, rho), 1e-9);
        expect(correlatedSum(a, SILENCE, rho)).toBeCloseTo(a, 10);
        expect(correlatedSum(a, a, -1)).toBe(SILENCE);
      }),
    );
    expect(correlatedSum(SILENCE, SILENCE, 1)).toBe(SILENCE);
  });
});

describe("many levels with correlations", () => {
  it("is the energy sum with none and the bus in phase with all", () => {
    fc.assert(
      fc.property(fc.array(level, { maxLength: 8 }), (levels) => {
        const all = (rho: number) => levels.map((_, i) => levels.map((_, j) => (i === j ? 1 : rho)));
        expectNear(correlatedLevelOf(levels, all(0)), energySum(levels), 1e-9);
        expectNear(correlatedLevelOf(levels, []), energySum(levels), 1e-9);
        expectNear(correlatedLevelOf(levels, all(1)), coherentSum(levels), 1e-9);
      }),
    );
  });

  it("equals the level of real signals with those correlations", () => {
    const signals = [
      [1, -2, 3, 0.5, -1],
      [0.5, 1, 2, -1, 0],
      [-1, 0.25, 0, 2, 1.5],
    ];
    const dot = (a: readonly number[], b: readonly number[]) =>
      a.reduce((sum, x, i) => sum + x * (b[i] as number), 0);
    const levels = signals.map((s) => 10 * Math.log10(dot(s, s) / 5));
    const matrix = signals.map((a) => signals.map((b) => dot(a, b) / Math.sqrt(dot(a, a) * dot(b, b))));
    const sum = [0, 1, 2, 3, 4].map((i) => signals.reduce((total, s) => total + (s[i] as number), 0));
    expectNear(correlatedLevelOf(levels, matrix), 10 * Math.log10(dot(sum, sum) / 5), 1e-12);
  });

  it("is silence, not NaN, where the correlations contradict each other", () => {
    const against = [
      [1, -1, -1],
      [-1, 1, -1],
      [-1, -1, 1],
    ];
    expect(correlatedLevelOf([0, 0, 0], against)).toBe(SILENCE);
    expect(correlatedLevelOf([SILENCE, SILENCE], [[1, 1]])).toBe(SILENCE);
  });
});

describe("two equal tones with a phase between", () => {
  it.each(PHASE)("%d°", (phase, gain) => {
    expectNear(phaseSum(phase), gain, 1e-12);
    expectNear(phaseSum(-phase), gain, 1e-12);
    expectNear(phaseSum(phase + 720), gain, 1e-12);
    expectNear(phaseSum(360 - phase), gain, 1e-12);
  });
});

describe("background", () => {
  it("is taken away from the total", () => {
    for (const [difference, subtract] of BACKGROUND) {
      expectNear(
        80 - (withoutBackground(80, 80 - difference) ?? Number.NaN),
        subtract,
        1e-11,
        `${difference} dB`,
      );
    }
  });

  it("comes back when it is added again", () => {
    fc.assert(
      fc.property(level, fc.double({ min: 1e-3, max: 60, noNaN: true }), (total, below) => {
        const rest = withoutBackground(total, total - below) ?? Number.NaN;
        expectNear(energySum([rest, total - below]), total, 1e-9);
      }),
    );
  });

  it("leaves silence when there is nothing else, and cannot be above the total", () => {
    expect(withoutBackground(60, 60)).toBe(SILENCE);
    expect(withoutBackground(SILENCE, SILENCE)).toBe(SILENCE);
    expect(withoutBackground(60, SILENCE)).toBe(60);
    expect(withoutBackground(60, 60.001)).toBeNull();
    expect(withoutBackground(SILENCE, 0)).toBeNull();
  });
});

describe("time average", () => {
  it.each(TIME_AVERAGES)("of %j", (segments, average) => {
    const named = segments.map(([seconds, level]) => ({ seconds, level }));
    expectNear(timeAverage(named), average, 1e-12);
    expectNear(timeAverage(named.map((s) => ({ ...s, seconds: s.seconds * 60 }))), average, 1e-12);
  });

  it("counts silent time, and is silence of no time", () => {
    expectNear(
      timeAverage([
        { seconds: 1, level: 80 },
        { seconds: 9, level: SILENCE },
      ]),
      70,
      1e-12,
    );
    expect([timeAverage([]), timeAverage([{ seconds: 0, level: 80 }])]).toEqual([SILENCE, SILENCE]);
  });

  it("as exposure in one second", () => {
    // LAE = LAeq,T + 10 lg(T/1 s).
    expect([exposureLevel(80, 1), exposureLevel(80, 100), exposureLevel(80, 0)]).toEqual([80, 100, SILENCE]);
  });
});
