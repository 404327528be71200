import { describe, expect, it } from "vitest";
import {
  addPlacement,
  finishTally,
  type Location,
  newTally,
  OFF_CENTRE_DB,
} from "../../../src/core/stereo/placement";

const MIDDLE: Location = { offset: 0.1, stands: "middle" };
const RIGHT: Location = { offset: 0.5, stands: "right" };
const NOWHERE: Location = { offset: null, stands: null };

describe("a tally", () => {
  it("a piece in the middle is flat only when it is heard more than 6 dB off", () => {
    expect(OFF_CENTRE_DB).toBe(6);
    expect([6, -6, 6.01, -6.01].map((apart) => addPlacement(newTally(), MIDDLE, apart, false))).toEqual([
      "right",
      "right",
      "centred",
      "centred",
    ]);
  });

  it("counts what is right, wrong, flat and unplaced each for itself", () => {
    const count = newTally();
    for (const apart of [3, 2, 1, -3, -2, 0.5, null]) addPlacement(count, RIGHT, apart, false);
    addPlacement(count, NOWHERE, 3, false);
    const { right, wrong, centred: flat, unplaced } = finishTally(count);
    expect([right, wrong, flat, unplaced]).toEqual([3, 2, 1, 2]);
  });

  it("the score is that of the pieces at a side: one in the middle, without a place or silent changes nothing", () => {
    const count = newTally();
    addPlacement(count, RIGHT, 15, false);
    expect(finishTally(count).score).toBe(1);
    addPlacement(count, MIDDLE, -15, false);
    addPlacement(count, NOWHERE, -15, false);
    addPlacement(count, RIGHT, null, false);
    expect(finishTally(count).score).toBe(1);
    const middle = newTally();
    addPlacement(middle, MIDDLE, 15, false);
    expect(finishTally(middle).score).toBe(null);
  });
});
