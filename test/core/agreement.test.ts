import { describe, expect, it } from "vitest";
import { addTo, finish, OFF_MIDDLE_DB, type Standing, startCount } from "../../src/core/agreement";

const MIDDLE: Standing = { offset: 0.1, stands: "middle" };
const RIGHT: Standing = { offset: 0.5, stands: "right" };
const NOWHERE: Standing = { offset: null, stands: null };

describe("a tally", () => {
  it("a piece in the middle is flat only when it is heard more than 6 dB off", () => {
    expect(OFF_MIDDLE_DB).toBe(6);
    expect([6, -6, 6.01, -6.01].map((apart) => addTo(startCount(), MIDDLE, apart, false))).toEqual([
      "right",
      "right",
      "flat",
      "flat",
    ]);
  });

  it("counts what is right, wrong, flat and unplaceable each for itself", () => {
    const count = startCount();
    for (const apart of [3, 2, 1, -3, -2, 0.5, null]) addTo(count, RIGHT, apart, false);
    addTo(count, NOWHERE, 3, false);
    const { right, wrong, flat, unplaceable } = finish(count);
    expect([right, wrong, flat, unplaceable]).toEqual([3, 2, 1, 2]);
  });

  it("the score is that of the pieces at a side: one in the middle, without a place or silent changes nothing", () => {
    const count = startCount();
    addTo(count, RIGHT, 15, false);
    expect(finish(count).score).toBe(1);
    addTo(count, MIDDLE, -15, false);
    addTo(count, NOWHERE, -15, false);
    addTo(count, RIGHT, null, false);
    expect(finish(count).score).toBe(1);
    const middle = startCount();
    addTo(middle, MIDDLE, 15, false);
    expect(finish(middle).score).toBe(null);
  });
});
