import { describe, expect, it } from "vitest";
import { playingPower } from "../../../src/core/measure/gate";
import { expectNear } from "../../near";

describe("power while playing", () => {
  it("a stretch exactly 20 dB below the loudest counts, one further below does not", () => {
    expectNear(playingPower([1, 0.01]), 0.505, 1e-12);
    expect(playingPower([1, 0.0099])).toBe(1);
  });

  it("of silence, and of no stretch at all, is 0", () => {
    expect(playingPower([0, 0])).toBe(0);
    expect(playingPower([])).toBe(0);
  });
});
