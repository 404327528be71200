import { expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { channel, onlyBus, setupOf } from "./setups";

it("a side that nothing reaches has no loudest and no costliest channel", () => {
  const setup = setupOf([channel("hat", { pan: -1 }), channel("shaker", { pan: -1 })]);
  const [left, right] = busFigures(setup, onlyBus(setup)).sides;
  expect(left.loudest).not.toBeNull();
  expect(left.costliest).not.toEqual({ energy: null, peak: null });
  expect(right.loudest).toBeNull();
  expect(right.costliest).toEqual({ energy: null, peak: null });
});
