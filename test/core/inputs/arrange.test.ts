import { describe, expect, it } from "vitest";
import { arePair, withinCount } from "../../../src/core/inputs/arrange";
import type { Bus, MonitorInput } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const MONO = ["a", "b", "c"].map((id) => channel(id));
const KEYS = channel("Keys", { lines: 2 });
const [A, B, C] = [direct("a"), direct("b"), direct("c")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];

const placed = (inputs: readonly (MonitorInput | null)[], inputCount: number, drums: Partial<Bus> = {}) =>
  withinCount(
    setup(
      [...MONO, KEYS],
      [bus("Other", [], { swapped: true }), bus("Drums", ["a"], drums)],
      inputs,
      inputCount,
    ),
  );

describe("two inputs are a pair", () => {
  it.each([
    ["both sides of a bus", DL, DR, true],
    ["both sides the other way round", DR, DL, true],
    ["one side twice", DL, DL, false],
    ["sides of two sums", DL, side("Horns", "right"), false],
    ["one side of two sums", DL, side("Horns", "left"), false],
    ["both channels of a channel", KL, KR, true],
    ["both channels the other way round", KR, KL, true],
    ["one channel twice", KL, KL, false],
    ["right twice", KR, KR, false],
    ["one channel and both in one", KL, direct("Keys"), false],
    ["channels of two channels", KL, direct("Strings", "right"), false],
    ["a side and a channel of one name", side("Keys", "left"), KR, false],
    ["a channel and a side of one name", KL, side("Keys", "right"), false],
    ["an input and nothing", KL, null, false],
    ["nothing and an input", undefined, DR, false],
  ] as const)("%s: as it should", (_, a, b, pair) => {
    expect(arePair(a, b)).toBe(pair);
  });
});

describe("what lies beyond the count", () => {
  it("goes to the first free input, all else stays", () => {
    expect(placed([A, null, B, null, C], 4)).toEqual([A, C, B, null]);
    expect(placed([A, B], 4)).toEqual([A, B, null, null]);
    expect(placed([null, null], 2)).toEqual([null, null]);
  });

  it("goes as a pair to two free neighbours, before anything single takes one of them", () => {
    expect(placed([A, null, B, null, null, C, DL, DR], 5)).toEqual([A, C, B, DL, DR]);
    expect(placed([null, null, null, A, null, KL, KR], 3)).toEqual([KL, KR, A]);
  });

  it("never lies across the last input: there all gaps are closed, in order", () => {
    // Free are the second and the last input: no neighbours, but room for two.
    expect(placed([A, null, B, null, DL, DR], 4)).toEqual([A, B, DL, DR]);
    expect(placed([null, A, null, DL, DR, null], 3)).toEqual([A, DL, DR]);
    // What is free then lies behind.
    expect(placed([null, A, null, B, null, DL, DR], 5)).toEqual([A, B, DL, DR, null]);
  });

  it("stays beyond where there is no room, a pair too", () => {
    expect(placed([A, B, C], 2)).toEqual([A, B, C]);
    expect(placed([A, null, DL, DR], 2)).toEqual([A, null, DL, DR]);
    expect(placed([A, B, DL, DR, C], 2)).toEqual([A, B, DL, DR, C]);
    // The single one still finds the input that is too small for the pair.
    expect(placed([A, null, DL, DR, C], 2)).toEqual([A, C, DL, DR]);
  });
});

describe("sides that meet by it", () => {
  it("lie as they are meant", () => {
    // The right side lies before the place where the left one is put.
    expect(placed([DR, null, DL], 2)).toEqual([DL, DR]);
    expect(placed([KR, null, KL], 2)).toEqual([KL, KR]);
    expect(placed([DL, null, DR], 2)).toEqual([DL, DR]);
  });

  it("lie in reverse where the pair is meant so, and only that pair", () => {
    expect(placed([DL, null, DR], 2, { swapped: true })).toEqual([DR, DL]);
    expect(placed([DR, null, DL], 2, { swapped: true })).toEqual([DR, DL]);
    expect(placed([KR, null, KL], 2, { swapped: true })).toEqual([KL, KR]);
  });

  it("stay as they are where they were neighbours before, and where they do not meet", () => {
    expect(placed([DR, DL, null, A], 3)).toEqual([DR, DL, A]);
    expect(placed([A, null, null, DR, DL], 3)).toEqual([A, DR, DL]);
    expect(placed([DR, A, null, DL], 3)).toEqual([DR, A, DL]);
    expect(placed([DR, null, A], 2)).toEqual([DR, A]);
    // One side alone meets nothing, in the very first input either.
    expect(placed([null, null, DR], 2, { swapped: true })).toEqual([DR, null]);
  });
});
