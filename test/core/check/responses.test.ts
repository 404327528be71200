import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Person } from "../../../src/core/check/people";
import { PEOPLE } from "../../../src/core/check/people";
import {
  chancesMaker,
  differenceOf,
  heardOf,
  placeOf,
  predicted,
  priorJoint,
  RESPONSE_MODEL,
  sharesOf,
} from "../../../src/core/check/responses";
import type { EarImage } from "../../../src/core/check/wiring";
import { ANSWERS } from "../../../src/core/model/kinds";

const person: Person = { threshold: 4, offset: 0, admits: true, lapseRate: 0, prior: 1 };
const heard = (difference: number, more: { below?: number; inverted?: boolean } = {}) => ({
  difference,
  below: 0,
  inverted: false,
  ...more,
});
const image = (left: number, right: number, inverted = false): EarImage => ({
  sides: [left, right],
  inverted,
});

describe("what somebody answers", () => {
  it("is half a side at the threshold, and the middle below", () => {
    // To the logistic's own tail on the other side.
    expect(sharesOf(person, heard(4)).right).toBeCloseTo(0.5, 12);
    expect(sharesOf(person, heard(-4)).left).toBeCloseTo(0.5, 12);
    expect(sharesOf(person, heard(0)).middle).toBeGreaterThan(0.9);
  });

  it("is within 0.01 of a normal distribution of what is heard", () => {
    // Share above the threshold one standard deviation away: 0.8413, two: 0.9772 (textbook, four digits).
    for (const [deviations, share] of [
      [1, 0.8413],
      [2, 0.9772],
    ] as const)
      expect(
        Math.abs(sharesOf(person, heard(4 + deviations * RESPONSE_MODEL.blurDb)).right - share),
      ).toBeLessThan(0.01);
  });

  it("is shifted by a weaker ear, as much as the offset", () => {
    for (const difference of [-9, -3, 0, 2, 11])
      expect(sharesOf({ ...person, offset: 3 }, heard(difference))).toEqual(
        sharesOf(person, heard(difference + 3)),
      );
  });

  it("of an inverted pair is “can’t place it”, or mostly the middle by who never says so", () => {
    const inverted = heard(0, { inverted: true });
    expect(sharesOf(person, inverted).unclear).toBeGreaterThan(0.9);
    expect(sharesOf(person, inverted).middle).toBe(0);
    const guessed = sharesOf({ ...person, admits: false }, inverted);
    expect(guessed.unclear).toBe(0);
    expect(guessed.middle).toBeGreaterThan(0.6);
    expect(guessed.left).toBeCloseTo(guessed.right, 12);
    expect(guessed.left).toBeGreaterThan(0.1);
  });

  it("is “nothing” more and more, the farther below the plan", () => {
    const { nothingFromDb, nothingToDb } = RESPONSE_MODEL;
    const nothing = (below: number) => sharesOf(person, heard(0, { below })).nothing;
    expect(nothing(nothingFromDb)).toBe(0);
    expect(nothing((nothingFromDb + nothingToDb) / 2)).toBeCloseTo(0.5, 12);
    expect(nothing(nothingToDb)).toBe(1);
  });

  it("has every other button alike in a lapse", () => {
    const shares = sharesOf({ ...person, lapseRate: 0.1 }, heard(0, { below: 99 }));
    expect(shares.nothing).toBeCloseTo(0.9, 12);
    for (const other of ["left", "middle", "right", "unclear"] as const)
      expect(shares[other]).toBeCloseTo(0.025, 12);
  });

  it("is a distribution, and mirrored with image and offset", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PEOPLE),
        fc.double({ min: -40, max: 40, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        fc.boolean(),
        (who, difference, below, inverted) => {
          const shares = sharesOf(who, { difference, below, inverted });
          expect(ANSWERS.reduce((sum, a) => sum + shares[a], 0)).toBeCloseTo(1, 12);
          expect(Math.min(...ANSWERS.map((a) => shares[a]))).toBeGreaterThanOrEqual(0);
          const mirrored = sharesOf(
            { ...who, offset: -who.offset },
            { difference: -difference, below, inverted },
          );
          expect(mirrored.left).toBeCloseTo(shares.right, 12);
          expect(mirrored.middle).toBeCloseTo(shares.middle, 12);
        },
      ),
    );
  });
});

describe("what is heard of an image", () => {
  it("goes by the difference, and by how far the louder ear is below the plan", () => {
    expect(heardOf(image(1, 2), image(1, 2))).toEqual(heard(6));
    expect(heardOf(image(0.1, 0.05), image(0.5, 1))).toEqual({ difference: -6, below: 21, inverted: false });
    expect(heardOf(image(2, 2, true), image(1, 1))).toEqual(heard(0, { inverted: true }));
  });

  it("is one-sided at most, silent at least, and never NaN", () => {
    expect(heardOf(image(0, 1), image(1, 1)).difference).toBe(40);
    expect(heardOf(image(0, 0), image(1, 1)).below).toBe(RESPONSE_MODEL.nothingToDb);
    expect(heardOf(image(0, 0), image(0, 0)).below).toBe(RESPONSE_MODEL.nothingToDb);
    expect(heardOf(image(1, 1), image(0, 0)).below).toBe(0);
  });
});

describe("lists of chances", () => {
  it("are made once for what is heard alike, answer by answer and in it person by person", () => {
    const chancesOf = chancesMaker();
    const list = chancesOf(heard(6));
    expect(chancesOf(heard(6))).toBe(list);
    expect(chancesOf(heard(6.25))).not.toBe(list);
    PEOPLE.forEach((who, at) => {
      const shares = sharesOf(who, heard(6));
      for (const answer of ANSWERS) expect(list[placeOf(answer) * PEOPLE.length + at]).toBe(shares[answer]);
    });
  });

  it("are averaged over everybody and every level of the overheads", () => {
    const chancesOf = chancesMaker();
    const joint = priorJoint([0.25, 0.75]);
    expect(joint.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 12);
    const answers = predicted(joint, [chancesOf(heard(9)), chancesOf(heard(-3))]);
    ANSWERS.forEach((answer, at) => {
      const expected = PEOPLE.reduce(
        (sum, who) =>
          sum +
          who.prior * (0.25 * sharesOf(who, heard(9))[answer] + 0.75 * sharesOf(who, heard(-3))[answer]),
        0,
      );
      expect(answers[at]).toBeCloseTo(expected, 12);
    });
  });

  it("differ by the share of answers that are not alike", () => {
    expect(differenceOf([1, 0, 0], [0, 1, 0])).toBe(1);
    expect(differenceOf([0.5, 0.5], [0.25, 0.75])).toBe(0.25);
  });
});
