import { describe, expect, it } from "vitest";
import { pinkNoise, walkOf } from "../../src/listen/walk";

const RATE = 48_000;

/** Beginnings of beeps on one side within a turn, seconds. */
const beepsOn = (side: 0 | 1): number[] => {
  const { round, gains } = walkOf("beeps", RATE);
  return round.voices.flatMap(({ at }, voice) => ((gains[voice]?.[side] ?? 0) > 0 ? [at / RATE] : []));
};

describe("the source to walk with", () => {
  it("beeps once on the left, twice on the right, three times on both", () => {
    const { round, gains } = walkOf("beeps", RATE);
    expect(gains).toEqual([
      [1, 0],
      [0, 1],
      [0, 1],
      [1, 1],
      [1, 1],
      [1, 1],
    ]);
    const begins = round.voices.map(({ at }) => at);
    expect(begins).toEqual([...begins].sort((a, b) => a - b));
    expect(beepsOn(0)).toHaveLength(4);
    expect(beepsOn(1)).toHaveLength(5);
  });

  it("leaves at least twice as long between the counts as between beeps, also into the next turn", () => {
    const { round } = walkOf("beeps", RATE);
    const begins = [...round.voices.map(({ at }) => at), round.length].map((at) => at / RATE);
    const gaps = begins.slice(1).map((at, i) => at - (begins[i] as number));
    const [between] = [gaps[1] as number];
    expect(between).toBeGreaterThan(0.3);
    for (const at of [0, 2, 5]) expect(gaps[at]).toBeGreaterThan(2 * between);
  });

  it("never reaches full scale, and begins and ends at nothing", () => {
    for (const name of ["beeps", "noise", "tone"] as const)
      for (const { samples } of walkOf(name, RATE).round.voices) {
        expect(samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0)).toBeLessThan(1);
        expect(samples[0]).toBeCloseTo(0, 9);
        // The tone goes on from its end, which is a wave long.
        if (name !== "tone") expect(samples.at(-1)).toBeCloseTo(0, 9);
      }
  });

  it("has a tone of 1 kHz on both that goes round without a seam", () => {
    const { round, gains } = walkOf("tone", RATE);
    expect(gains).toEqual([[1, 1]]);
    const [samples] = round.voices.map((voice) => voice.samples);
    expect(samples).toHaveLength(round.length);
    const wave = RATE / 1000;
    for (let i = 0; i < 2 * wave; i += 1) {
      const next = samples?.[(round.length - wave + i) % round.length];
      expect(next).toBeCloseTo(0.9 * Math.sin((2 * Math.PI * i) / wave), 5);
    }
  });

  it("has pink noise: each octave from 31 Hz to 8 kHz as much as the next, within 1 dB of their mean", () => {
    const noise = pinkNoise(RATE, 2 ** 17);
    /** Energy at one frequency by Goertzel's recursion. */
    const energyAt = (frequency: number): number => {
      const turn = 2 * Math.cos((2 * Math.PI * frequency) / RATE);
      let [a, b] = [0, 0];
      for (const x of noise) [a, b] = [x + turn * a - b, a];
      return a * a + b * b - turn * a * b;
    };
    // As many as the lowest octave can tell apart in so long a time: fewer leave more to chance than 1 dB.
    const STEPS = 96;
    const octaves = [31.25, 62.5, 125, 250, 500, 1000, 2000, 4000].map((low) => {
      let power = 0;
      for (let n = 0; n < STEPS; n += 1)
        power += low * energyAt(low * 2 ** ((n + 0.5) / STEPS)) * 2 ** ((n + 0.5) / STEPS);
      return 10 * Math.log10(power);
    });
    const mean = octaves.reduce((a, b) => a + b, 0) / octaves.length;
    for (const level of octaves) expect(Math.abs(level - mean)).toBeLessThan(1);
  });
});
