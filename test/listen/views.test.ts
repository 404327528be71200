import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Legs } from "../../src/core/units";
import { gainsOf, levelled, powerOfSamples, type ViewGains } from "../../src/listen/views";

const gain = fc.double({ min: -2, max: 2, noNaN: true });
const view = fc.array(fc.tuple(gain, gain), { minLength: 3, maxLength: 3 });
const powers = [1, 0.25, 0.01];
const energy = (gains: ViewGains): number =>
  gains.reduce((sum, [l, r], i) => sum + (l * l + r * r) * (powers[i] ?? 0), 0);

describe("three views at one loudness", () => {
  it("all have the energy of the softest, none is raised, no image moves", () => {
    fc.assert(
      fc.property(view, view, view, (house, now, repaired) => {
        const before = { house, now, repaired };
        fc.pre(Object.values(before).every((g) => energy(g) > 1e-9));
        const after = levelled(before, powers);
        const softest = Math.min(...Object.values(before).map(energy));
        for (const name of ["house", "now", "repaired"] as const) {
          expect(Math.abs(energy(after[name]) / softest - 1)).toBeLessThan(1e-12);
          after[name].forEach(([l, r], i) => {
            const [wasL, wasR] = before[name][i] as Legs;
            expect(Math.abs(l)).toBeLessThanOrEqual(Math.abs(wasL) * (1 + 1e-12));
            expect(Math.abs(l * wasR - r * wasL)).toBeLessThan(1e-12);
          });
        }
      }),
    );
  });

  it("a silent view stays silent and silences no other", () => {
    const loud: ViewGains = [[1, 0]];
    const after = levelled({ house: loud, now: [[0, 0]], repaired: [[0, 0.5]] }, [1]);
    expect(after).toEqual({ house: [[0.5, 0]], now: [[0, 0]], repaired: [[0, 0.5]] });
  });
});

describe("gains of a view", () => {
  it("are the listener's legs; what the listener does not get is silent", () => {
    const rows = [{ source: "kick", legs: [0.7, 0.7] }] as unknown as Parameters<typeof gainsOf>[0]["rows"];
    expect(gainsOf({ rows }, ["hat", "kick"])).toEqual([
      [0, 0],
      [0.7, 0.7],
    ]);
  });

  it("power of samples", () => {
    expect(powerOfSamples(Float32Array.of(1, -1, 0, 0))).toBe(0.5);
    expect(powerOfSamples(new Float32Array(0))).toBe(0);
  });
});
