import { expect, it } from "vitest";
import { sumFigures } from "../../../src/core/sum/figures";
import { onlySum, setupOf, source } from "./setups";

it("a leg that nothing reaches has no loudest and no costliest source", () => {
  const setup = setupOf([source("hat", { pan: -1 }), source("shaker", { pan: -1 })]);
  const [left, right] = sumFigures(setup, onlySum(setup)).legs;
  expect(left.loudest).not.toBeNull();
  expect(left.costliest).not.toEqual({ energy: null, peak: null });
  expect(right.loudest).toBeNull();
  expect(right.costliest).toEqual({ energy: null, peak: null });
});
