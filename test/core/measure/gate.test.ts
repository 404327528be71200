import { describe, expect, it } from "vitest";
import { gated } from "../../../src/core/measure/gate";
import { expectNear } from "../../near";

describe("gating blocks", () => {
  it("one exactly 20 dB below the loudest passes, one further below does not", () => {
    const both = gated([1, 0.01]);
    expectNear(both.power, 0.505, 1e-12);
    expect(both.activity).toBe(1);
    expect(gated([1, 0.0099])).toEqual({ power: 1, activity: 0.5 });
  });

  it("activity is the share that passes: gated power by it is the mean of all, but for what does not pass", () => {
    expect(gated([0, 0, 0.25, 0])).toEqual({ power: 0.25, activity: 0.25 });
    const { power, activity } = gated([0.5, 0, 1, 0, 0]);
    expectNear(power * activity, 0.3, 1e-12);
  });

  it("of silence, and of no block at all, there is none", () => {
    expect(gated([0, 0])).toEqual({ power: 0, activity: 0 });
    expect(gated([])).toEqual({ power: 0, activity: 0 });
  });
});
