import { expect, it } from "vitest";
import { PEOPLE } from "../../../src/core/check/people";

const share = (is: (person: (typeof PEOPLE)[number]) => boolean): number =>
  PEOPLE.filter(is).reduce((sum, p) => sum + p.prior, 0);

it("everybody together has chance 1, and each combination stands once", () => {
  expect(share(() => true)).toBeCloseTo(1, 12);
  const combinations = PEOPLE.map((p) => `${p.threshold} ${p.offset} ${p.admits} ${p.lapseRate}`);
  expect(new Set(combinations).size).toBe(PEOPLE.length);
});

it("thresholds run from 2 to 8 dB, offsets to 6 dB either way and alike, and some never say “can’t place it”", () => {
  const thresholds = PEOPLE.map((p) => p.threshold);
  expect([Math.min(...thresholds), Math.max(...thresholds)]).toEqual([2, 8]);
  const offsets = PEOPLE.map((p) => p.offset);
  expect([Math.min(...offsets), Math.max(...offsets)]).toEqual([-6, 6]);
  for (const offset of new Set(offsets))
    expect(share((p) => p.offset === offset)).toBeCloseTo(
      share((p) => p.offset === -offset),
      12,
    );
  expect(share((p) => !p.admits)).toBeGreaterThan(0.2);
});
