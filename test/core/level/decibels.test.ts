import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  coherentSum,
  energySum,
  gainOf,
  levelOf,
  levelOfPower,
  powerOf,
} from "../../../src/core/level/decibels";
import { expectNear, printed } from "../../near";
import { ADD_COARSELY, ADD_TO_HIGHER, PRINTED_SUMS } from "../../tables/handbook-levels";
import { ENERGY_SUMS, EQUAL_SOURCES, TWO_LEVELS } from "../../tables/level-arithmetic";

const SILENCE = Number.NEGATIVE_INFINITY;
const level = fc.double({ min: -200, max: 200, noNaN: true });

describe("levels of ratios", () => {
  it("comes back from dB to gain and to power", () => {
    fc.assert(
      fc.property(level, (l) => {
        expectNear(levelOf(gainOf(l)), l, 1e-11);
        expectNear(levelOfPower(powerOf(l)), l, 1e-11);
      }),
    );
  });

  it("takes a switched polarity as the same level, and silence as −∞", () => {
    expect(levelOf(-0.5)).toBe(levelOf(0.5));
    expect([levelOf(0), levelOf(-0), levelOfPower(0)]).toEqual([SILENCE, SILENCE, SILENCE]);
    expect([gainOf(SILENCE), powerOf(SILENCE)]).toEqual([0, 0]);
  });
});

describe("energy sum", () => {
  it.each(EQUAL_SOURCES)("adds %i equal channels", (count, energy, inPhase) => {
    const levels = Array.from({ length: count }, () => -7);
    expectNear(energySum(levels) + 7, energy, 1e-12);
    expectNear(coherentSum(levels) + 7, inPhase, 1e-12);
  });

  it("adds two levels 0 to 30 dB apart", () => {
    for (const [difference, energy, inPhase] of TWO_LEVELS) {
      expectNear(energySum([70, 70 - difference]) - 70, energy, 1e-12, `${difference} dB`);
      expectNear(coherentSum([70, 70 - difference]) - 70, inPhase, 1e-12, `${difference} dB`);
    }
  });

  it.each(ENERGY_SUMS)("adds %j", (levels, sum) => expectNear(energySum(levels), sum, 1e-12));

  it("agrees with the rounded tables in print", () => {
    for (const [difference, add] of ADD_TO_HIGHER) {
      expectNear(energySum([0, -difference]), add, printed(1), `${difference} dB`);
    }
    for (const [from, to, add] of ADD_COARSELY) {
      for (const difference of [from, to])
        expectNear(energySum([0, -difference]), add, 0.25, `${difference} dB`);
    }
    for (const [levels, sum, digits] of PRINTED_SUMS) expectNear(energySum(levels), sum, printed(digits));
  });

  it("takes no notice of order nor of silence", () => {
    fc.assert(
      fc.property(fc.array(level, { minLength: 1 }), fc.array(fc.nat(), { minLength: 1 }), (levels, keys) => {
        const shuffled = levels
          .map((l, i) => [keys[i % keys.length] as number, l] as const)
          .sort(([a], [b]) => a - b)
          .map(([, l]) => l);
        expectNear(energySum(shuffled), energySum(levels), 1e-11);
        expectNear(coherentSum(shuffled), coherentSum(levels), 1e-11);
        expect(energySum([SILENCE, ...levels, SILENCE])).toBe(energySum(levels));
        expect(coherentSum([SILENCE, ...levels])).toBe(coherentSum(levels));
      }),
    );
  });

  it("is never below the loudest nor above the bus in phase", () => {
    fc.assert(
      fc.property(fc.array(level, { minLength: 1 }), (levels) => {
        expect(energySum(levels)).toBeGreaterThanOrEqual(Math.max(...levels) - 1e-11);
        expect(energySum(levels)).toBeLessThanOrEqual(coherentSum(levels) + 1e-11);
      }),
    );
  });

  it("is silence of nothing", () => {
    expect([energySum([]), coherentSum([]), energySum([SILENCE])]).toEqual([SILENCE, SILENCE, SILENCE]);
  });
});
