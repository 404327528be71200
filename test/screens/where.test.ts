import { expect, it } from "vitest";
import { across, inFront } from "../../src/screens/where";

it.each([
  [0.5, "0.50 m right"],
  [-0.5, "0.50 m left"],
  [0, "in the middle"],
  [-0.004, "in the middle"],
])("%d m across is %s", (x, said) => {
  expect(across(x)).toBe(said);
});

it("sides of FOH are named as such", () => {
  expect(across(-2, "house right", "house left")).toBe("2.00 m house left");
});

it.each([
  [0.3, "0.30 m in front of the throne"],
  [-0.3, "0.30 m behind the throne"],
  [0, "level with the throne"],
])("%d m in front is %s", (y, said) => {
  expect(inFront(y)).toBe(said);
});
