import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ANSWERS } from "../../../src/core/check/answers";
import { type Check, checkOf } from "../../../src/core/check/check";
import { ELSE_PRIOR } from "../../../src/core/check/elsewise";
import { countedHits, informationOf, mostHits, nextHit, posterior } from "../../../src/core/check/session";
import type { Hit } from "../../../src/core/model/setup";
import { crowd, drummer, setupWith } from "./kits";

const check = checkOf(setupWith(8, "root"), drummer);
const anyHits = fc.array(
  fc.record({
    piece: fc.constantFrom(...check.strikes.map((s) => s.piece), "gone"),
    answer: fc.constantFrom(...ANSWERS),
  }),
  { maxLength: 60 },
);
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const setWith = (of: Check, id: string) => of.sets.findIndex((s) => s.faults.some((f) => f.id === id));

describe("belief", () => {
  it("is a proper distribution after any hits", () => {
    fc.assert(
      fc.property(anyHits, (hits) => {
        const { sets, unknown, entropy } = posterior(check, hits);
        expect(sum(sets) + unknown).toBeCloseTo(1, 12);
        expect(Math.min(...sets, unknown)).toBeGreaterThanOrEqual(0);
        expect(entropy).toBeGreaterThanOrEqual(0);
        expect(entropy).toBeLessThanOrEqual(Math.log2(check.sets.length + 1) + 1e-12);
      }),
    );
  });

  it("before any hit is what the table of faults says", () => {
    const { sets, unknown } = posterior(check, []);
    expect(unknown).toBeCloseTo(ELSE_PRIOR, 12);
    sets.forEach((p, at) => {
      expect(p).toBeCloseTo((1 - ELSE_PRIOR) * (check.sets[at]?.prior as number), 12);
    });
  });

  it("does not depend on the order of the hits", () => {
    fc.assert(
      fc.property(anyHits, (hits) => {
        fc.pre(countedHits(check, hits).length === hits.filter((h) => h.piece !== "gone").length);
        const there = posterior(check, hits).sets;
        const back = posterior(check, [...hits].reverse()).sets;
        there.forEach((p, at) => {
          expect(back[at]).toBeCloseTo(p, 9);
        });
      }),
    );
  });

  it("passes over pieces that are not there, and over hits beyond the last it asks for", () => {
    const hits: Hit[] = [{ piece: "hat", answer: "left" }];
    expect(posterior(check, [{ piece: "gone", answer: "right" }, ...hits])).toEqual(posterior(check, hits));
    const many = Array.from(
      { length: 5000 },
      (_, at): Hit => ({ piece: "hat", answer: ANSWERS[at % 5] ?? "left" }),
    );
    expect(countedHits(check, many)).toHaveLength(mostHits(check));
    expect(posterior(check, many)).toEqual(posterior(check, many.slice(0, mostHits(check))));
  });

  it("loses no hit to pieces that are not there, however many stand before it", () => {
    const gone = Array.from({ length: mostHits(check) }, (): Hit => ({ piece: "gone", answer: "right" }));
    const hits: Hit[] = [{ piece: "hat", answer: "left" }];
    expect(countedHits(check, [...gone, ...hits])).toEqual(hits);
    expect(nextHit(check, [...gone, ...hits])).toEqual(nextHit(check, hits));
  });

  it("stays a figure where so many answers fit no fault that their chance is nothing at all", () => {
    const big = checkOf(crowd(90), drummer);
    const pieces = big.strikes.map((s) => s.piece);
    const hits = [...pieces, ...pieces].map((piece): Hit => ({ piece, answer: "unclear" }));
    const { sets, unknown, entropy } = posterior(big, hits);
    expect(Math.min(...sets)).toBe(0);
    expect(unknown).toBe(1);
    expect(entropy).toBeCloseTo(0, 12);
  });

  it("follows Bayes: two answers weigh the chances by their products", () => {
    const hits: Hit[] = [
      { piece: "hat", answer: "right" },
      { piece: "floor", answer: "left" },
    ];
    const [planned, reversed] = ["planned", "reversed"].map((id) => setWith(check, id)) as [number, number];
    const [hat, floor] = ["hat", "floor"].map((id) => check.strikes.findIndex((s) => s.piece === id)) as [
      number,
      number,
    ];
    const chance = (set: number) =>
      (check.sets[set]?.prior as number) *
      (check.sets[set]?.chances[hat]?.[2] as number) *
      (check.sets[set]?.chances[floor]?.[0] as number);
    const { sets } = posterior(check, hits);
    expect((sets[reversed] as number) / (sets[planned] as number)).toBeCloseTo(
      chance(reversed) / chance(planned),
      6,
    );
    expect(sets[reversed]).toBeGreaterThan(0.5);
  });
});

describe("the next hit", () => {
  it("is the one whose answer is expected to lower the uncertainty most", () => {
    const hits: Hit[] = [{ piece: "hat", answer: "left" }];
    const told = informationOf(check, hits);
    // The chance of an answer is left to the belief itself: Bayes read backwards from what each answer does to one set.
    const before = posterior(check, hits);
    const planned = setWith(check, "planned");
    check.strikes.forEach(({ piece }, strike) => {
      const after = ANSWERS.map((answer) => posterior(check, [...hits, { piece, answer }]));
      const chances = after.map(
        (b, at) =>
          ((before.sets[planned] as number) * (check.sets[planned]?.chances[strike]?.[at] as number)) /
          (b.sets[planned] as number),
      );
      expect(sum(chances)).toBeCloseTo(1, 9);
      const expected = before.entropy - sum(after.map((b, at) => (chances[at] as number) * b.entropy));
      expect(told[strike]).toBeCloseTo(expected, 4);
    });
    const { next } = nextHit(check, hits);
    expect(next).toBe(check.strikes[told.indexOf(Math.max(...told))]?.piece);
  });

  it("may be a piece again after another one, where that tells most", () => {
    const hits: Hit[] = [
      { piece: "kick", answer: "left" },
      { piece: "hat", answer: "right" },
    ];
    const told = informationOf(check, hits);
    expect(check.strikes[told.indexOf(Math.max(...told))]?.piece).toBe("kick");
    expect(nextHit(check, hits).next).toBe("kick");
  });

  it("is never the same piece three times in a row", () => {
    fc.assert(
      fc.property(anyHits, (hits) => {
        const counted = countedHits(check, hits);
        const { next } = nextHit(check, hits);
        const last = counted.slice(-2).map((h) => h.piece);
        expect(last.length === 2 && last.every((p) => p === next)).toBe(false);
      }),
    );
  });
});

describe("faults that the ears cannot tell apart", () => {
  const together = (of: Check, ...ids: readonly string[]) =>
    new Set(ids.map((id) => setWith(of, id))).size === 1;

  it("are one set: reversed at the patch or flipped at the mixer, a lost side or a dead ear", () => {
    expect(together(check, "reversed", "flipped")).toBe(true);
    expect(together(check, "left side only", "left ear dead")).toBe(true);
    expect(together(check, "planned", "reversed")).toBe(false);
  });

  it("are one set with as planned where a channel is all but at the centre", () => {
    const setup = setupWith(8, "sine");
    const pan = (hat: number) =>
      checkOf(
        { ...setup, channels: setup.channels.map((s) => (s.id === "hat" ? { ...s, pan: hat } : s)) },
        drummer,
      );
    expect(together(pan(0.05), "planned", "channel wrong hat")).toBe(true);
    // 2 dB off: a side in one answer of three.
    expect(together(pan(0.15), "planned", "channel wrong hat")).toBe(true);
    expect(together(pan(0.6), "planned", "channel wrong hat")).toBe(false);
  });

  it("of a listener who folds hold planned, reversed and folded", () => {
    const mono = checkOf(setupWith(8, "sine"), { ...drummer, mono: true });
    expect(together(mono, "planned", "reversed", "folded", "flipped")).toBe(true);
  });

  it("hold every fault once, and their chances sum to 1", () => {
    const ids = check.sets.flatMap((s) => s.faults.map((f) => f.id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(sum(check.sets.map((s) => s.prior))).toBeCloseTo(1, 12);
  });
});
