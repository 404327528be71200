import { describe, expect, it } from "vitest";
import { arePair, withinCount } from "../../../src/core/patch/place";
import type { Slot, Sum } from "../../../src/core/setup";
import { direct, leg, setup, source, sum } from "./setups";

const MONO = ["a", "b", "c"].map((id) => source(id));
const KEYS = source("Keys", { channels: 2 });
const [A, B, C] = [direct("a"), direct("b"), direct("c")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];

const placed = (slots: readonly (Slot | null)[], slotCount: number, drums: Partial<Sum> = {}) =>
  withinCount(
    setup(
      [...MONO, KEYS],
      [sum("Other", [], { reversed: true }), sum("Drums", ["a"], drums)],
      slots,
      slotCount,
    ),
  );

describe("two slots are a pair", () => {
  it.each([
    ["both legs of a sum", DL, DR, true],
    ["both legs the other way round", DR, DL, true],
    ["one leg twice", DL, DL, false],
    ["legs of two sums", DL, leg("Horns", "right"), false],
    ["one leg of two sums", DL, leg("Horns", "left"), false],
    ["both channels of a source", KL, KR, true],
    ["both channels the other way round", KR, KL, true],
    ["one channel twice", KL, KL, false],
    ["right twice", KR, KR, false],
    ["one channel and both in one", KL, direct("Keys"), false],
    ["channels of two sources", KL, direct("Strings", "right"), false],
    ["a leg and a source of one name", leg("Keys", "left"), KR, false],
    ["a source and a leg of one name", KL, leg("Keys", "right"), false],
    ["a slot and nothing", KL, null, false],
    ["nothing and a slot", undefined, DR, false],
  ] as const)("%s: as it should", (_, a, b, pair) => {
    expect(arePair(a, b)).toBe(pair);
  });
});

describe("what lies beyond the count", () => {
  it("goes to the first free slot, all else stays", () => {
    expect(placed([A, null, B, null, C], 4)).toEqual([A, C, B, null]);
    expect(placed([A, B], 4)).toEqual([A, B, null, null]);
    expect(placed([null, null], 2)).toEqual([null, null]);
  });

  it("goes as a pair to two free neighbours, before anything single takes one of them", () => {
    expect(placed([A, null, B, null, null, C, DL, DR], 5)).toEqual([A, C, B, DL, DR]);
    expect(placed([null, null, null, A, null, KL, KR], 3)).toEqual([KL, KR, A]);
  });

  it("never lies across the last slot: there all gaps are closed, in order", () => {
    // Free are the second and the last slot: no neighbours, but room for two.
    expect(placed([A, null, B, null, DL, DR], 4)).toEqual([A, B, DL, DR]);
    expect(placed([null, A, null, DL, DR, null], 3)).toEqual([A, DL, DR]);
    // What is free then lies behind.
    expect(placed([null, A, null, B, null, DL, DR], 5)).toEqual([A, B, DL, DR, null]);
  });

  it("stays beyond where there is no room, a pair too", () => {
    expect(placed([A, B, C], 2)).toEqual([A, B, C]);
    expect(placed([A, null, DL, DR], 2)).toEqual([A, null, DL, DR]);
    expect(placed([A, B, DL, DR, C], 2)).toEqual([A, B, DL, DR, C]);
    // The single one still finds the slot that is too small for the pair.
    expect(placed([A, null, DL, DR, C], 2)).toEqual([A, C, DL, DR]);
  });
});

describe("sides that meet by it", () => {
  it("lie as they are meant", () => {
    // The right leg lies before the place where the left one is put.
    expect(placed([DR, null, DL], 2)).toEqual([DL, DR]);
    expect(placed([KR, null, KL], 2)).toEqual([KL, KR]);
    expect(placed([DL, null, DR], 2)).toEqual([DL, DR]);
  });

  it("lie in reverse where the pair is meant so, and only that pair", () => {
    expect(placed([DL, null, DR], 2, { reversed: true })).toEqual([DR, DL]);
    expect(placed([DR, null, DL], 2, { reversed: true })).toEqual([DR, DL]);
    expect(placed([KR, null, KL], 2, { reversed: true })).toEqual([KL, KR]);
  });

  it("stay as they are where they were neighbours before, and where they do not meet", () => {
    expect(placed([DR, DL, null, A], 3)).toEqual([DR, DL, A]);
    expect(placed([A, null, null, DR, DL], 3)).toEqual([A, DR, DL]);
    expect(placed([DR, A, null, DL], 3)).toEqual([DR, A, DL]);
    expect(placed([DR, null, A], 2)).toEqual([DR, A]);
    // One leg alone meets nothing, in the very first slot either.
    expect(placed([null, null, DR], 2, { reversed: true })).toEqual([DR, null]);
  });
});
