import { describe, expect, it } from "vitest";
import { type MeasuredPan, readingsOf } from "../../../src/core/hear/law";
import { steadyMeter } from "../../../src/core/hear/steady-meter";
import type { LawId, LawReference } from "../../../src/core/model/setup";
import { identifyLaw } from "../../../src/core/pan/identify";
import { exampleSetup } from "../../../src/document/example";
import { seeded } from "../check/simulate";
import { panned } from "./stage";

const RATE = 48_000;
const PANS = [0, -0.5, -1, 0.25, 0.75];
const LAWS: readonly LawId[] = ["sine", "root", "linear", "mean45", "sine45", "cosine2"];
const REFERENCES: readonly LawReference[] = ["sides", "centre"];

/** A tone through a desk, with noise at −60 dBFS on each side. */
const tone = (gains: readonly [number, number], random: () => number, seconds: number) => {
  const hiss = 0.001 * Math.sqrt(3);
  const side = (gain: number) =>
    Float32Array.from(
      { length: seconds * RATE },
      (_, i) => gain * 0.2 * Math.sin((2 * Math.PI * 997 * i) / RATE) + hiss * (2 * random() - 1),
    );
  return [side(gains[0]), side(gains[1])] as const;
};

const measuredAt = (law: LawId, reference: LawReference, centreDb: number, random: () => number) =>
  PANS.map((pan): MeasuredPan => {
    const desk = { ...exampleSetup().desk, law, reference, centreDb };
    const meter = steadyMeter(RATE, [-60, -60]);
    const [left, right] = tone(panned(desk, pan), random, 1);
    for (let at = 0; at < left.length; at += 128)
      meter.take(left.subarray(at, at + 128), right.subarray(at, at + 128));
    const { levels, error } = meter.read();
    return { pan, levels, error };
  });

describe("the law by measuring", () => {
  it.each(LAWS.flatMap((law) => REFERENCES.map((reference) => [law, reference] as const)))(
    "is found from a tone at five pans: %s, %s",
    (law, reference) => {
      const found = identifyLaw(readingsOf(measuredAt(law, reference, 3, seeded(1))));
      const left = found.left.map((fit) => `${fit.law} ${fit.reference}`);
      expect(left).toContain(`${law} ${reference}`);
      // What is left beside it differs from it by no more than 0.5 dB at these pans.
      const curve = (of: LawId, by: LawReference) =>
        PANS.flatMap((pan) => panned({ ...exampleSetup().desk, law: of, reference: by }, pan))
          .filter((gain) => gain > 1e-6)
          .map((gain) => 20 * Math.log10(gain));
      for (const fit of found.left) {
        const [a, b] = [curve(law, reference), curve(fit.law, fit.reference)];
        const off = a.map((level, at) => level - (b[at] as number));
        expect(Math.max(...off) - Math.min(...off), `${fit.law} ${fit.reference}`).toBeLessThan(0.5);
      }
    },
  );

  it.each([2, 5.2])("is the desk’s own drop where no fixed law has it: %f dB", (centreDb) => {
    const found = identifyLaw(readingsOf(measuredAt("custom", "sides", centreDb, seeded(2))));
    // Which end is 0 dB no side tells: it moves all levels alike.
    expect(found.left.map(({ law, reference }) => `${law} ${reference}`)).toEqual([
      "custom sides",
      "custom centre",
    ]);
    expect(found.left[0]?.centre?.low).toBeLessThan(centreDb);
    expect(found.left[0]?.centre?.high).toBeGreaterThan(centreDb);
  });

  it("takes no reading of a silent side, and no finer step than can be", () => {
    const readings = readingsOf([
      { pan: -1, levels: [-20, Number.NEGATIVE_INFINITY], error: 0 },
      { pan: 0, levels: [-23, -23.05], error: 0.05 },
    ]);
    expect(readings).toEqual([
      { at: { pan: -1, side: "left" }, level: -20, resolution: 0.1 },
      { at: { pan: 0, side: "left" }, level: -23, resolution: 0.4 },
      { at: { pan: 0, side: "right" }, level: -23.05, resolution: 0.4 },
    ]);
  });
});

describe("a steady meter", () => {
  it("reads the level without the noise, the same by blocks of any length", () => {
    const [left, right] = tone([1, 0.01], seeded(3), 2);
    const whole = steadyMeter(RATE, [-60, -60]);
    whole.take(left, right);
    const parts = steadyMeter(RATE, [-60, -60]);
    for (let at = 0; at < left.length; at += 1013)
      parts.take(left.subarray(at, at + 1013), right.subarray(at, at + 1013));
    const level = 20 * Math.log10(0.2) - 10 * Math.log10(2);
    expect(whole.read().levels[0]).toBeCloseTo(level, 2);
    // −57 dBFS of tone under −60 of noise.
    expect(whole.read().levels[1]).toBeGreaterThan(level - 40 - 0.1);
    expect(whole.read().levels[1]).toBeLessThan(level - 40 + 0.1);
    expect(parts.read().levels[0]).toBeCloseTo(whole.read().levels[0], 9);
    expect(whole.read().seconds).toBe(2);
    expect(whole.read().error).toBeLessThan(0.01);
  });

  it("knows nothing before it has heard something, and no level where there is only noise", () => {
    const meter = steadyMeter(RATE, [-60, -60]);
    expect(meter.read().error).toBe(Number.POSITIVE_INFINITY);
    const [left, right] = tone([0, 0], seeded(4), 1);
    meter.take(left, right);
    expect(meter.read().levels).toEqual([Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY]);
  });
});
