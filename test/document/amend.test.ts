import { describe, expect, it } from "vitest";
import { alike } from "../../src/document/amend";

describe("two things are alike", () => {
  it.each([
    [
      { a: 1, b: [{ c: null }] },
      { b: [{ c: null }], a: 1 },
    ],
    ["hat", "hat"],
    [null, null],
    [[], []],
  ])("that say the same, in whatever order: %j", (a, b) => {
    expect(alike(a, b)).toBe(true);
  });

  it.each([
    [{}, { a: 1 }],
    [{ a: 1 }, {}],
    [{ a: 1 }, { b: 1 }],
    [{ a: undefined }, { b: undefined }],
    [{ a: { b: 1 } }, { a: { b: 2 } }],
    [null, {}],
    [{}, null],
    [1, {}],
    [{}, 1],
    [1, 2],
  ])("but not %j and %j", (a, b) => {
    expect(alike(a, b)).toBe(false);
  });
});
