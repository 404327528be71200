import { describe, expect, it } from "vitest";
import { heardTwice, riseOfCopy } from "../../../src/core/inputs/twice";
import type { MonitorInput } from "../../../src/core/model/setup";
import { expectNear, printed } from "../../near";
import { bus, channel, direct, isOff, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const KEYS = channel("Keys", { lines: 2 });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];

describe("the level of a thing that comes in twice", () => {
  it.each([
    // 20 lg (1 + 10^(−|difference|/20)), by hand.
    [0, 0, 6.02],
    [-6, -6, 6.02],
    [-6, 0, 3.53],
    [0, -6, 3.53],
    [3, -3, 3.53],
    [0, -20, 0.83],
  ])("at trims of %d and %d dB rises by %f dB", (first, second, rise) => {
    expectNear(riseOfCopy(first, second), rise, printed(2));
  });

  it("is reckoned ear by ear, channel by channel", () => {
    const keys = { ...KEYS, keepSides: true };
    const rise = (own: readonly MonitorInput[]) =>
      heardTwice(setup([keys], [bus("Drums", ["Keys"])], [DL, DR, ...own]))[0]?.rise.map((ear) =>
        ear === null ? null : Number(ear.toFixed(2)),
      );
    // Both channels wide, at the sides of the pair: each ear has the same channel twice.
    expect(rise([KL, KR])).toEqual([6.02, 6.02]);
    // Crossed: other channels meet in each ear, power 2 over power 1.
    expect(rise([KR, KL])).toEqual([3.01, 3.01]);
    // One channel only comes to both ears: twice in its own, beside the other channel in the other.
    expect(rise([KL])).toEqual([6.02, 3.01]);
    expect(rise([KR])).toEqual([3.01, 6.02]);
    // Both in one input: (2² + 1²) / (1² + 1²) in each ear.
    expect(rise([direct("Keys")])).toEqual([3.98, 3.98]);
    // Both in one input beside the pair: in each ear its own 3 and the other 1, (3² + 1²) / (2² + 1²).
    expect(rise([KL, KR, direct("Keys")])).toEqual([3.01, 3.01]);
    // Twice by itself on top: (3² + 0) / 2² of its own inputs alone.
    expect(rise([KL, KR, KL, KR])).toEqual([3.52, 3.52]);
  });

  it("is nothing for a channel that is only in a bus, or a bus that is only named like a channel", () => {
    expect(heardTwice(setup([KICK], [bus("Drums", ["Kick"])], [DL, DR]))).toEqual([]);
    const s = setup([channel("Drums")], [bus("Drums", ["Drums"])], [DL, direct("Drums")]);
    expect(heardTwice(s)).toMatchObject([{ direct: [1], within: [0] }]);
    expect(heardTwice(setup([KICK], [bus("Drums", ["Kick"])], [DL, DR, isOff(direct("Kick"))]))).toEqual([]);
  });
});
