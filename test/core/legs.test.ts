import { expect, it } from "vitest";
import { channelsOf, legsOf } from "../../src/core/legs";

it("a source of two channels takes a slot for each, left first; one of one channel takes one for both sides", () => {
  expect(channelsOf({ channels: 2 })).toEqual(["left", "right"]);
  expect(channelsOf({ channels: 1 })).toEqual(["both"]);
});

it("a pair has two legs, left first; a mono sum has its left one only", () => {
  expect(legsOf({ stereo: true })).toEqual(["left", "right"]);
  expect(legsOf({ stereo: false })).toEqual(["left"]);
});
