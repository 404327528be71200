import { describe, expect, it } from "vitest";
import type { FoundHit, MeasuredHit } from "../../../src/core/hear/hit";
import { hitFinder } from "../../../src/core/hear/hit-finder";
import { seeded } from "../check/simulate";

/** What is played: at a time, with gains left and right, a kind of drum. */
interface Played {
  readonly at: number;
  readonly gains: readonly [number, number];
  readonly drum: keyof typeof DRUMS;
}

/** Hertz and decay of the tone, decay of the noise, shares of both. */
const DRUMS = {
  kick: [55, 0.12, 0.008, 0.9, 0.2],
  snare: [190, 0.08, 0.09, 0.4, 0.6],
  hat: [7000, 0.02, 0.05, 0.1, 0.9],
  floor: [80, 0.3, 0.012, 0.9, 0.2],
} as const;

const NOISE = 0.001 * Math.sqrt(3);

/** Plays a list over noise at −60 dBFS on each side. */
const recorded = (rate: number, seconds: number, list: readonly Played[], random: () => number) => {
  const length = Math.round(rate * seconds);
  const sides = [0, 1].map(() => Float64Array.from({ length }, () => NOISE * (2 * random() - 1)));
  const clean = [0, 1].map(() => new Float64Array(length));
  for (const { at, gains, drum } of list) {
    const [hertz, toneFor, noiseFor, tone, noise] = DRUMS[drum];
    const from = Math.round(at * rate);
    for (let i = from; i < length; i += 1) {
      const t = (i - from) / rate;
      const sample =
        Math.min(1, t / 0.001) *
        (tone * Math.exp(-t / toneFor) * Math.sin(2 * Math.PI * hertz * t) +
          noise * Math.exp(-t / noiseFor) * (2 * random() - 1));
      gains.forEach((gain, side) => {
        (sides[side] as Float64Array)[i] = (sides[side]?.[i] as number) + gain * sample;
        (clean[side] as Float64Array)[i] = (clean[side]?.[i] as number) + gain * sample;
      });
    }
  }
  const [left, right] = sides.map((side) => Float32Array.from(side, (s) => Math.max(-1, Math.min(1, s))));
  const energy = (side: number) => (clean[side] as Float64Array).reduce((sum, s) => sum + s * s, 0);
  return {
    left: left as Float32Array,
    right: right as Float32Array,
    difference: 10 * Math.log10(energy(1) / energy(0)),
  };
};

const found = (rate: number, left: Float32Array, right: Float32Array, block = 128): FoundHit[] => {
  const finder = hitFinder(rate);
  const all: FoundHit[] = [];
  for (let at = 0; at < left.length; at += block)
    all.push(...finder.take(left.subarray(at, at + block), right.subarray(at, at + block)));
  return all;
};
const hitsOf = (all: readonly FoundHit[]): MeasuredHit[] =>
  all.flatMap((one) => (one.kind === "hit" ? [one.hit] : []));

const KINDS = Object.keys(DRUMS) as Played["drum"][];
const RATES = [44_100, 48_000];

describe("a finder of hits", () => {
  it.each(RATES.flatMap((rate) => KINDS.map((drum) => [drum, rate] as const)))(
    "finds every hit of a %s when it comes, with its own level difference within 0.1 dB, at %i Hz",
    (drum, rate) => {
      const random = seeded(rate + drum.length);
      for (const gains of [
        [0.3, 0.3],
        [0.4, 0.1],
        [0.05, 0.5],
      ] as const) {
        const times = [0.4, 1.3, 2.2];
        const { left, right, difference } = recorded(
          rate,
          3,
          times.map((at) => ({ at, gains, drum })),
          random,
        );
        const hits = hitsOf(found(rate, left, right));
        expect(hits.map(({ at }) => Math.round(at * 100) / 100)).toEqual(times);
        for (const hit of hits) {
          expect(Math.abs(hit.difference - difference)).toBeLessThan(0.1);
          expect(hit.error).toBeLessThan(0.3);
          expect(hit.correlation).toBeGreaterThan(0.98);
          expect(hit.silentSide).toBe(null);
          expect(hit.first?.difference).toBeGreaterThan(difference - 2);
          expect(hit.first?.difference).toBeLessThan(difference + 2);
        }
      }
    },
  );

  it("says each within 300 ms of its onset", () => {
    const rate = 48_000;
    const { left, right } = recorded(rate, 1, [{ at: 0.5, gains: [0.4, 0.2], drum: "snare" }], seeded(3));
    const finder = hitFinder(rate);
    let said = 0;
    for (let at = 0; at < left.length && said === 0; at += 128)
      if (finder.take(left.subarray(at, at + 128), right.subarray(at, at + 128)).length > 0)
        said = (at + 128) / rate;
    expect(said).toBeGreaterThan(0.5);
    expect(said).toBeLessThan(0.7);
  });

  it("measures an inverted side and a silent one", () => {
    const rate = 48_000;
    const inverted = recorded(rate, 1, [{ at: 0.5, gains: [0.4, -0.4], drum: "kick" }], seeded(4));
    expect(hitsOf(found(rate, inverted.left, inverted.right))[0]?.correlation).toBeLessThan(-0.98);
    const silent = recorded(rate, 1, [{ at: 0.5, gains: [0.4, 0], drum: "kick" }], seeded(5));
    const [hit] = hitsOf(found(rate, silent.left, silent.right));
    expect(hit?.silentSide).toBe("right");
    expect(hit?.difference).toBe(Number.NEGATIVE_INFINITY);
    expect(hit?.correlation).toBe(null);
    expect(hit?.noise[1]).toBeGreaterThan(-61);
    expect(hit?.noise[1]).toBeLessThan(-59);
  });

  it("measures the first wave apart from what comes later", () => {
    const rate = 48_000;
    // On the left at once; on the right, as loud, a metre later.
    const left = recorded(rate, 1, [{ at: 0.5, gains: [0.4, 0], drum: "floor" }], seeded(6));
    const right = recorded(rate, 1, [{ at: 0.503, gains: [0, 0.4], drum: "floor" }], seeded(6));
    const [hit] = hitsOf(found(rate, left.left, right.right));
    expect(Math.abs(hit?.difference ?? 99)).toBeLessThan(1);
    expect(hit?.first?.difference).toBeLessThan(-15);
  });

  it.each([25, 40, 60, 90, 120])("refuses two drums %i ms apart, and finds the next", (apart) => {
    const rate = 48_000;
    for (const [first, second] of [
      ["kick", "hat"],
      ["snare", "kick"],
      ["floor", "snare"],
      ["hat", "floor"],
    ] as const) {
      const { left, right } = recorded(
        rate,
        2,
        [
          { at: 0.5, gains: [0.4, 0.2], drum: first },
          { at: 0.5 + apart / 1000, gains: [0.2, 0.4], drum: second },
          { at: 1.4, gains: [0.3, 0.3], drum: "snare" },
        ],
        seeded(apart),
      );
      const all = found(rate, left, right);
      expect(
        all.map((one) => (one.kind === "hit" ? "hit" : one.why)),
        `${first}, ${second}`,
      ).toEqual(["double", "hit"]);
    }
  });

  it("refuses a clipped hit", () => {
    const rate = 48_000;
    const { left, right } = recorded(rate, 1, [{ at: 0.5, gains: [2.5, 0.3], drum: "kick" }], seeded(8));
    const [only, ...others] = found(rate, left, right);
    expect(only).toMatchObject({ kind: "refused", why: "clipped" });
    expect(others).toEqual([]);
  });

  it("finds nothing in noise, a tone that stays, or digital silence", () => {
    const rate = 48_000;
    const random = seeded(9);
    const length = 20 * rate;
    const noise = Float32Array.from({ length }, () => 0.2 * (2 * random() - 1));
    expect(
      found(
        rate,
        noise,
        noise.map((s) => s / 2),
        4096,
      ),
    ).toEqual([]);
    const tone = Float32Array.from({ length }, (_, i) => Math.min(1, i / rate) * 0.3 * Math.sin(i * 0.01));
    expect(found(rate, tone, tone, 4096)).toEqual([]);
    expect(found(rate, new Float32Array(length), new Float32Array(length), 4096)).toEqual([]);
  });

  it("finds the same by blocks of any length", () => {
    const rate = 44_100;
    const { left, right } = recorded(
      rate,
      2,
      [
        { at: 0.5, gains: [0.4, 0.1], drum: "floor" },
        { at: 1.2, gains: [0.2, 0.3], drum: "hat" },
      ],
      seeded(10),
    );
    const whole = found(rate, left, right, left.length);
    expect(whole).toHaveLength(2);
    for (const block of [1, 128, 441, 5000]) expect(found(rate, left, right, block)).toEqual(whole);
  });
});
