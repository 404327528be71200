import { expect, it } from "vitest";
import { forHand, limbsOf, placeFor } from "../../src/document/places";

it("a piece more stands at the first place of its kind at which nothing stands", () => {
  const first = { x: -0.17, y: 0.65 };
  const second = { x: 0.2, y: 0.65 };
  expect(placeFor("tom", "right", [])).toEqual(first);
  expect(placeFor("tom", "right", [first])).toEqual(second);
  expect(placeFor("tom", "right", [second])).toEqual(first);
  expect(placeFor("tom", "left", [])).toEqual({ x: 0.17, y: 0.65 });
});

it("with every place of its kind taken it stands beside the last, away from the drummer", () => {
  const taken = [
    { x: -0.17, y: 0.65 },
    { x: 0.2, y: 0.65 },
  ];
  const third = placeFor("tom", "right", taken);
  expect(third.x).toBe(0.2);
  expect(third.y).toBeCloseTo(0.8, 12);
  const fourth = placeFor("tom", "right", [...taken, third]);
  expect(fourth.x).toBe(0.2);
  expect(fourth.y).toBeCloseTo(0.95, 12);
  const kick = { x: 0, y: 0.75 };
  expect(placeFor("kick", "right", [kick])).toEqual({ x: 0, y: 0.9 });
});

it("what stands at the same distance, but elsewhere, takes no place", () => {
  const beside = [
    { x: 0.3, y: 0.3 },
    { x: -0.5, y: 0.7 },
  ];
  expect(placeFor("hat", "right", beside)).toEqual({ x: -0.5, y: 0.3 });
});

it("hands play what is neither stamped on nor hears everything", () => {
  expect([limbsOf("snare"), limbsOf("other"), limbsOf("percussion")]).toEqual([["hand"], ["hand"], ["hand"]]);
  expect([limbsOf("kick"), limbsOf("hat"), limbsOf("overhead")]).toEqual([
    ["kick-foot"],
    ["hand", "hat-foot"],
    ["whole"],
  ]);
});

it("no hand moves a microphone over the kit, whatever it is called; what is struck it does", () => {
  const over = { kind: "other", limbs: ["whole"], x: 0.5 } as const;
  expect(forHand(over, "right", "left")).toBe(over);
  expect(forHand({ kind: "overhead", x: 0.5 } as const, "right", "left").x).toBe(0.5);
  expect(forHand({ ...over, limbs: ["hand"] }, "right", "left").x).toBe(-0.5);
});
