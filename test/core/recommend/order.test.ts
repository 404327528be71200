import { expect, it } from "vitest";
import { compare, isAsGood } from "../../../src/core/recommend/badness";
import type { Criteria } from "../../../src/core/recommend/model";
import { MONITOR_REST } from "../desk";
import { heardBy, ids, wishing } from "./ranked";
import { channel, kit, listener, side, withChannel } from "./setups";

/*
 * Orders that were written down by hand before they were looked at: a kit panned for the audience, the drummer matters
 * most and has it the wrong way round.
 */
const KEYS = channel("keys", { name: "Keys", lines: 2, keepSides: true });
const INES = listener("ines", { name: "Ines", facing: 180 });
const TOBI = listener("tobi", { name: "Tobi" });
const FOUR = '["hat","tom","floor","ride"]';

it("one for all: a swap for those who face the audience, a flip for the one who faces the band", () => {
  expect(ids(heardBy(kit(), INES, TOBI))).toEqual([
    "swap; flip ines", // all right, two changes
    "swap", // Ines wrong, one change
    "fold", // nobody wrong, nobody right: worse for Mara than anything that gives her sides
    "leave",
  ]);
});

it("with stereo keys that keep L/R: a bus of her own costs inputs and is still before what spoils Ines", () => {
  expect(ids(heardBy(withChannel(kit(), KEYS), INES))).toEqual([
    `own mara ${FOUR}`, // all right for both, the keys too; two inputs
    `bus ${FOUR}; flip ines`, // the flip costs Ines the keys
    `bus ${FOUR}`, // the pans cost Ines the drums
    "flip mara", // the flip costs Mara the keys
    "leave",
  ]);
});

it("with no input to spare and a third who is as Mara is: pans before the swap, which costs everybody the keys", () => {
  const setup = wishing(heardBy(withChannel(kit(), KEYS), INES, TOBI), { inputsFixed: true });
  expect(ids(setup)).toEqual([
    `bus ${FOUR}; flip ines`,
    `bus ${FOUR}`,
    "swap; flip ines",
    "swap",
    "fold",
    "leave",
  ]);
});

it("with unequal input trims: one change that is 1 dB off an exact mirror before two that are exact", () => {
  const monitor = {
    inputCount: 2,
    inputs: [side("m1", "left", 1), side("m1", "right")],
    maxInputDbu: 20,
    ...MONITOR_REST,
  };
  expect(ids(heardBy(kit({ monitor }), TOBI))).toEqual(["swap", "flip mara; flip tobi", "fold", "leave"]);
  // For her alone both are one change, so the exact one is first.
  expect(ids(kit({ monitor }))[0]).toBe("flip mara");
});

const NONE: Criteria = { first: [0, 0, 0], others: [0, 0, 0], inputs: 0, moves: 0, residual: 0 };

it("who matters most weighs before the others, they before inputs, these before moves, and moves before exactness", () => {
  const one = { first: [1, 0, 0], others: [1, 0, 0], inputs: 1, moves: 1, residual: 1 } as const;
  const order = ["residual", "moves", "inputs", "others", "first"] as const;
  order.forEach((criterion, at) => {
    const heavier = { ...NONE, [criterion]: one[criterion] };
    const light = order.slice(0, at).map((c) => [c, c === "others" ? [9, 9, 9] : 9]);
    const lighter = { ...NONE, ...Object.fromEntries(light) };
    expect(compare(lighter, heavier), criterion).toBeLessThan(0);
    expect(compare(heavier, lighter), criterion).toBeGreaterThan(0);
    expect(isAsGood(NONE, heavier), criterion).toBe(true);
    expect(isAsGood(heavier, NONE), criterion).toBe(false);
  });
  expect(compare(NONE, { ...NONE })).toBe(0);
});

it("of one listener, sides weigh before flats, and flats before the score", () => {
  const better = { ...NONE, first: [0, 5, 5] as const };
  expect(compare(better, { ...NONE, first: [1, 0, -9] })).toBeLessThan(0);
  expect(compare({ ...NONE, first: [0, 0, 9] }, { ...NONE, first: [0, 1, -9] })).toBeLessThan(0);
});

it("a residual that differs by rounding is the same", () => {
  expect(compare(NONE, { ...NONE, residual: 1e-12 })).toBe(0);
  expect(isAsGood({ ...NONE, residual: 1e-12 }, NONE)).toBe(true);
  expect(compare(NONE, { ...NONE, residual: 0.01 })).toBeLessThan(0);
});
