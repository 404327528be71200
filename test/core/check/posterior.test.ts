import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Check, checkOf } from "../../../src/core/check/check";
import { PEOPLE } from "../../../src/core/check/people";
import { bits, countedHits, mostHits, posteriorOf } from "../../../src/core/check/posterior";
import { placeOf } from "../../../src/core/check/responses";
import { UNEXPLAINED_PRIOR } from "../../../src/core/check/unexplained";
import { ANSWERS } from "../../../src/core/model/kinds";
import type { Hit } from "../../../src/core/model/setup";
import { crowd, drummer, setupWith } from "./kits";
import { hitOf } from "./simulate";

const check = checkOf(setupWith(8, "root"), drummer);
const sum = (values: Iterable<number>): number => [...values].reduce((a, b) => a + b, 0);
const anyHits = fc.array(
  fc.oneof(
    fc.tuple(fc.constantFrom(...check.probes), fc.constantFrom(...ANSWERS)).map(([p, a]) => hitOf(p, a)),
    fc.constant<Hit>({ piece: "gone", answer: "left" }),
  ),
  { maxLength: 50 },
);
const at = (of: Check, id: string): number => of.candidates.findIndex((c) => c.id === id);

describe("belief", () => {
  it("is a proper distribution after any hits", () => {
    fc.assert(
      fc.property(anyHits, (hits) => {
        const { candidates, unexplained, entropy } = posteriorOf(check, hits).belief;
        expect(sum(candidates) + unexplained).toBeCloseTo(1, 12);
        expect(Math.min(...candidates, unexplained)).toBeGreaterThanOrEqual(0);
        expect(entropy).toBeGreaterThanOrEqual(0);
        expect(entropy).toBeLessThanOrEqual(Math.log2(check.candidates.length + 1) + 1e-12);
      }),
    );
  });

  it("before any hit is what the table of faults says", () => {
    const { candidates, unexplained } = posteriorOf(check, []).belief;
    expect(unexplained).toBeCloseTo(UNEXPLAINED_PRIOR, 12);
    candidates.forEach((p, candidate) => {
      expect(p).toBeCloseTo((1 - UNEXPLAINED_PRIOR) * (check.candidates[candidate]?.prior ?? 0), 12);
    });
  });

  it("follows Bayes over everybody: two answers of one person weigh by the product of that person's chances", () => {
    const asked = [3, 40] as const;
    const said = ["right", "nothing"] as const;
    const hits = asked.map((probe, which) => hitOf(check.probes[probe] as never, said[which] as never));
    const likelihood = (id: string) =>
      sum(
        check.overheads.flatMap((level, l) =>
          PEOPLE.map((person, p) =>
            asked.reduce(
              (product, probe, which) =>
                product *
                (check.candidates[at(check, id)]?.chances[probe]?.[l]?.[
                  placeOf(said[which] as never) * PEOPLE.length + p
                ] as number),
              level * person.prior * (check.candidates[at(check, id)]?.prior as number),
            ),
          ),
        ),
      );
    const { candidates } = posteriorOf(check, hits).belief;
    for (const id of ["swapped", "missing hat", "inverted", "overheads-crossed"])
      expect((candidates[at(check, id)] as number) / (candidates[0] as number)).toBeCloseTo(
        likelihood(id) / likelihood("planned"),
        9,
      );
  });

  it("does not depend on the order of the hits", () => {
    fc.assert(
      fc.property(anyHits, (hits) => {
        fc.pre(countedHits(check, hits).length === hits.filter((h) => h.piece !== "gone").length);
        const there = posteriorOf(check, hits).belief.candidates;
        posteriorOf(check, [...hits].reverse()).belief.candidates.forEach((p, candidate) => {
          expect(p).toBeCloseTo(there[candidate] as number, 9);
        });
      }),
    );
  });

  it("learns who listens: after sides called at small differences a low threshold, after “left” of everything a left offset", () => {
    const people = (hits: readonly Hit[], of: (person: (typeof PEOPLE)[number]) => number) => {
      const joint = posteriorOf(check, hits).joints[0] as Float64Array;
      const all = sum(joint);
      return sum(
        [...joint].map((weight, place) => (weight / all) * of(PEOPLE[place % PEOPLE.length] as never)),
      );
    };
    const sharp: Hit[] = [
      { piece: "tom2", answer: "right" },
      { piece: "tom1", answer: "left" },
      { piece: "tom2", answer: "right" },
    ];
    const dull = sharp.map((hit): Hit => ({ ...hit, answer: "middle" }));
    expect(people(sharp, (p) => p.threshold)).toBeLessThan(people([], (p) => p.threshold) - 0.5);
    expect(people(dull, (p) => p.threshold)).toBeGreaterThan(people([], (p) => p.threshold) + 0.3);
    const leaning: Hit[] = [
      { piece: "kick", answer: "left" },
      { piece: "snare", answer: "left" },
    ];
    expect(people(leaning, (p) => p.offset)).toBeLessThan(-2);
    const wild: Hit[] = sharp.map((hit) => ({ ...hit, answer: "nothing" }));
    expect(people(wild, (p) => p.lapseRate)).toBeGreaterThan(people([], (p) => p.lapseRate) + 0.02);
  });

  it("shares the joint of “planned” with what no hit has told from it", () => {
    const { joints } = posteriorOf(check, [{ piece: "kick", answer: "middle" }]);
    expect(joints[at(check, "missing hat")]).toBe(joints[0]);
    expect(joints[at(check, "missing kick")]).not.toBe(joints[0]);
  });

  it("passes over what cannot be asked, and over hits beyond the last", () => {
    const hits: Hit[] = [{ piece: "hat", answer: "left" }];
    const odd: Hit[] = [{ piece: "gone", answer: "right" }, ...hits];
    expect(posteriorOf(check, odd).belief).toEqual(posteriorOf(check, hits).belief);
    const many = Array.from(
      { length: 500 },
      (_, n): Hit => ({ piece: "hat", answer: ANSWERS[n % 5] ?? "left" }),
    );
    expect(countedHits(check, many)).toHaveLength(mostHits(check));
  });

  it("has two faults at once for something unexplained, far sooner than answers that follow nothing", () => {
    const gone = (answers: Readonly<Record<string, Hit["answer"]>>): Hit[] =>
      Object.entries(answers).flatMap(([piece, answer]) => {
        const hit: Hit = { piece, answer, action: "mute-overheads" };
        return [hit, hit];
      });
    const sane = { kick: "middle", snare: "middle", tom1: "left", tom2: "right" } as const;
    const { unexplained } = posteriorOf(check, gone({ ...sane, hat: "nothing", floor: "nothing" })).belief;
    expect(unexplained).toBeGreaterThan(0.1);
    expect(
      posteriorOf(check, gone({ ...sane, hat: "left", floor: "right" })).belief.unexplained,
    ).toBeLessThan(UNEXPLAINED_PRIOR);
  });

  it("stays a figure when nothing fits any more", () => {
    const big = checkOf(crowd(64), drummer);
    const hits = Array.from(
      { length: 60 },
      (_, n): Hit => ({ piece: `piece ${n}`, answer: ANSWERS[(n * 7) % 5] ?? "left" }),
    );
    const { candidates, unexplained } = posteriorOf(big, hits).belief;
    expect(sum(candidates) + unexplained).toBeCloseTo(1, 12);
    expect(unexplained).toBeGreaterThan(0.99);
  });
});

it("uncertainty is counted in bits", () => {
  expect(bits([0.25, 0.25, 0.25, 0.25])).toBe(2);
  expect(bits([1, 0])).toBe(0);
});
