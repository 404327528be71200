import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  asTyped,
  formatClock,
  formatEntry,
  formatNumber,
  formatPercent,
  formatSigned,
  type NumberRule,
  plain,
  readNumber,
} from "../../../src/core/lib/number";

const TRIM: NumberRule = { name: "Trim", min: -60, max: 20, unit: "dB" };
const STEPS: NumberRule = { name: "Steps", min: 1, max: 200, unit: "", whole: true };
const read = (text: string) => readNumber(text, TRIM);
const value = (v: number) => ({ state: "value", value: v });
/** Texts of what such a field may be given, in any order. */
const scribble = fc.string({ unit: fc.constantFrom(..."0123579.,:;%<>+-−–lLrRcCeEdB \u00a0\u200b∞🥁") });

describe("reading a number", () => {
  it.each([
    ["-6", -6],
    ["−3 dB", -3],
    ["−3dB", -3],
    ["–3", -3],
    ["‑3", -3],
    ["+4,5", 4.5],
    ["4.50", 4.5],
    ["1.", 1],
    [".5", 0.5],
    ["-.5", -0.5],
    ["\u00a012\u202fDB\u200b ", 12],
    ["007", 7],
    ["−60", -60],
    ["20", 20],
  ])("%j is %d", (text, number) => expect(read(text)).toEqual(value(number)));

  it("has no −0", () => {
    for (const text of ["-0", "−0.0", "0"])
      expect(Object.is((read(text) as { value: number }).value, 0)).toBe(true);
  });

  it.each(["", " ", "-", "−", "+", ".", ",", "-.", "−,", "3 d", "-12d"])("%j is half-typed", (text) => {
    expect(read(text)).toEqual({ state: "open" });
  });

  it.each(["−3 dB", "+12,5 dB", "-.5dB"])("every beginning of %j is the user's, no error", (text) => {
    for (let end = 0; end <= text.length; end += 1) expect(read(text.slice(0, end)).state).not.toBe("wrong");
  });

  it.each([
    "abc",
    "0x10",
    "1e3",
    "1e400",
    "--3",
    "3-",
    "1.2.3",
    "1,2,3",
    "NaN",
    "Infinity",
    "∞",
    "−3 dBu",
    "dB",
    "-dB",
    "- d",
    "3 4 k",
    "<b>",
  ])("%j is no number", (text) => {
    expect(read(text)).toEqual({ state: "wrong", why: { code: "no number", typed: text, rule: TRIM } });
  });

  it("says what is out of range, and clamps nothing", () => {
    expect(read("20,1")).toEqual({ state: "wrong", why: { code: "outside", typed: "20,1", rule: TRIM } });
    expect(read("−61 dB")).toEqual({ state: "wrong", why: { code: "outside", typed: "−61 dB", rule: TRIM } });
    expect(read("9".repeat(400)).state).toBe("wrong");
  });

  it("wants whole numbers where only they make sense", () => {
    expect(readNumber("12.0", STEPS)).toEqual(value(12));
    expect(readNumber("12.5", STEPS)).toEqual({
      state: "wrong",
      why: { code: "not whole", typed: "12.5", rule: STEPS },
    });
    expect(readNumber("12 dB", STEPS).state).toBe("wrong");
  });

  it("takes a unit of several signs letter by letter", () => {
    const rule = { name: "Sensitivity", min: 0, max: 150, unit: "dB/mW" };
    expect(["118", "118 d", "118 dB/", "118 dB/m"].map((t) => readNumber(t, rule).state)).toEqual([
      "value",
      "open",
      "open",
      "open",
    ]);
    expect(readNumber("118 dB/mW", rule)).toEqual(value(118));
    expect(readNumber("118 dB/V", rule).state).toBe("wrong");
  });

  it("reads back what it prints", () => {
    fc.assert(
      fc.property(fc.integer({ min: -60_000, max: 20_000 }), (thousandths) => {
        const number = thousandths / 1000 + 0;
        expect(read(formatEntry(number))).toEqual(value(number));
        expect(read(formatNumber(number, 3))).toEqual(value(number));
      }),
    );
  });

  it("survives any text", () => {
    fc.assert(
      fc.property(scribble, (text) => {
        const typed = read(text);
        if (typed.state === "value") expect(typed.value >= -60 && typed.value <= 20).toBe(true);
      }),
    );
  });
});

describe("printing a number", () => {
  it("has a true minus, the digits asked for, and no −0", () => {
    expect([formatNumber(-3.04, 1), formatNumber(-0.04, 1), formatNumber(2, 2)]).toEqual([
      "−3.0",
      "0.0",
      "2.00",
    ]);
    expect([formatNumber(-Infinity, 1), formatNumber(Infinity, 1)]).toEqual(["−∞", "+∞"]);
    expect([formatEntry(-0.1), formatEntry(0.1 + 0.2), formatEntry(-1e-9)]).toEqual(["−0.1", "0.3", "0"]);
  });

  it("shows what was typed, cut where a paste goes on and on", () => {
    expect(asTyped("  −3 dB ")).toBe("−3 dB");
    expect(asTyped("x".repeat(24))).toBe("x".repeat(24));
    expect(asTyped("x".repeat(25))).toBe(`${"x".repeat(24)}…`);
    expect(asTyped("🥁".repeat(25))).toBe(`${"🥁".repeat(24)}…`);
    expect(plain("− 3,5\u00a0DB")).toBe("-3.5db");
  });
});

it.each([
  [1.25, 2, "+1.25"],
  [-1.25, 2, "−1.25"],
  [0.04, 1, "0.0"],
  [0.05, 1, "+0.1"],
  [-0.04, 1, "0.0"],
  [0, 1, "0.0"],
  [Number.POSITIVE_INFINITY, 1, "+∞"],
  [Number.NEGATIVE_INFINITY, 1, "−∞"],
])("%d with its sign to %d digits is %s", (value, digits, said) => {
  expect(formatSigned(value, digits)).toBe(said);
});

it.each([
  [0.614, "61 %"],
  [0, "0 %"],
  [1, "100 %"],
])("a share of %d is %s", (share, said) => {
  expect(formatPercent(share)).toBe(said);
});

it.each([
  [0, "0:00.0"],
  [0.3, "0:00.3"],
  [1.99, "0:01.9"],
  [59.99, "0:59.9"],
  [60, "1:00.0"],
  [127.3, "2:07.3"],
  [3600, "60:00.0"],
])("a clock at %d s says %s", (seconds, said) => {
  expect(formatClock(seconds)).toBe(said);
});
