import { expect, it } from "vitest";
import { type Ceiling, ceilingsOf, limitingStageOf, SLACK } from "../../../src/core/headroom/ceilings";
import type { Db, Sides } from "../../../src/core/model/units";

const MARGIN = 6;

/** What stands at full scale for a likely peak of each side. */
const at = (...likely: Sides): Ceiling =>
  limitingStageOf(ceilingsOf([{ place: "output", at: [0, 0] }], likely, MARGIN));
const stateAt = (peak: Db) => at(peak, peak).state;

it("a peak that just meets the ceiling is not over it", () => {
  expect(stateAt(0)).toBe("under target");
  expect(stateAt(SLACK / 2)).toBe("under target");
  expect(stateAt(2 * SLACK)).toBe("over");
});

it("a peak that just leaves the margin is fine", () => {
  expect(stateAt(-MARGIN)).toBe("fine");
  expect(stateAt(-MARGIN + SLACK / 2)).toBe("fine");
  expect(stateAt(-MARGIN + 2 * SLACK)).toBe("under target");
});

it("names the left side where both come as close, and the right where it comes closer", () => {
  expect(at(-3, -3).side).toBe("left");
  expect(at(-3, -3 + SLACK / 2).side).toBe("left");
  expect(at(-3, -2)).toMatchObject({ side: "right", headroom: 2 });
});
