import { describe, expect, it } from "vitest";
import { earImage, STRAIGHT } from "../../../src/core/check/wiring";

describe("what both ears get", () => {
  it("is in opposite polarity when the greater part of it is, however one-sided a softer part", () => {
    const inPhase = [1, 0.1] as const;
    const opposite = [-0.5, 0.5] as const;
    // 1 × 0.1 − 0.5 × 0.5 is below 0.
    expect(earImage([inPhase, opposite], STRAIGHT).inverted).toBe(true);
    expect(earImage([inPhase, [-0.2, 0.2]], STRAIGHT).inverted).toBe(false);
  });

  it("is not in opposite polarity where one ear gets nothing", () => {
    expect(earImage([[-1, 0]], STRAIGHT)).toEqual({ sides: [1, 0], inverted: false });
  });
});
