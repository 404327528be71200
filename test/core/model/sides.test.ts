import { expect, it } from "vitest";
import { linesOf, sidesOf } from "../../../src/core/model/sides";

it("a channel of two channels takes an input for each, left first; one of one channel takes one for both sides", () => {
  expect(linesOf({ lines: 2 })).toEqual(["left", "right"]);
  expect(linesOf({ lines: 1 })).toEqual(["both"]);
});

it("a pair has two sides, left first; a mono bus has its left one only", () => {
  expect(sidesOf({ stereo: true })).toEqual(["left", "right"]);
  expect(sidesOf({ stereo: false })).toEqual(["left"]);
});
