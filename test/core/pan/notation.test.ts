import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { panGains } from "../../../src/core/pan/laws";
import { formatPan, mirrorPan, parsePan, roundPan, stepPan } from "../../../src/core/pan/notation";
import type { PanFault, PanNotation } from "../../../src/core/pan/notation-styles";
import { expectNear } from "../../near";
import { RP036 } from "../../tables/rp036";

const steps = (panSteps: number): PanNotation => ({ panStyle: "steps", panSteps });
const HUNDRED = steps(100);
const MIDI: PanNotation = { panStyle: "midi", panSteps: 100 };
const CLOCK: PanNotation = { panStyle: "clock", panSteps: 100 };
const STYLES = [HUNDRED, steps(30), steps(7), MIDI, CLOCK];
const pan = fc.double({ min: -1, max: 1, noNaN: true });
const notation = fc.oneof(fc.constantFrom(MIDI, CLOCK), fc.integer({ min: 1, max: 500 }).map(steps));
/** Half a step of each style, in pan. */
const halfStep = ({ panStyle, panSteps }: PanNotation): number =>
  0.5 / { steps: panSteps, midi: 63, clock: 20 }[panStyle];
const read = (text: string, as: PanNotation): number => {
  const typed = parsePan(text, as);
  if (typed.state !== "value") throw new Error(`“${text}” is ${JSON.stringify(typed)}`);
  return typed.value;
};
const why = (text: string, as: PanNotation): PanFault | string => {
  const typed = parsePan(text, as);
  return typed.state === "wrong" ? typed.why : typed.state;
};
/** Texts of what such a field may be given, in any order. */
const scribble = fc.string({ unit: fc.constantFrom(..."0123579.,:;%<>+-−–lLrRcCeEdB \u00a0\u200b∞🥁") });

describe("reading a pan", () => {
  it.each([
    "L30",
    "l 30",
    "30L",
    "30 l",
    "Left 30",
    "30 left",
    "-30",
    "−30",
    "– 30",
    "<30",
    "30<",
    "30% L",
    "L30%",
    "-30%",
    "30.0L",
  ])("%j is 30 of 100 to the left", (text) => expect(read(text, HUNDRED)).toBe(-0.3));

  it.each(["R 12,5", "12.5R", "+12.5", "12,5", ">12.5", "12.5>", "right 12.5", "12.5%"])(
    "%j is 12.5 of 100 to the right",
    (text) => expect(read(text, HUNDRED)).toBe(0.125),
  );

  it.each(["C", "c", " <C> ", "centre", "Center"])("%j is the centre in every style", (text) => {
    for (const style of STYLES) expect(read(text, style)).toBe(0);
  });

  it("0 is the centre, never −0", () => {
    for (const text of ["0", "-0", "L0", "0 L", "<0", "0% L"]) {
      expect(Object.is(read(text, HUNDRED), 0), text).toBe(true);
    }
  });

  it("counts the console's own steps", () => {
    expect([read("L30", steps(30)), read("15", steps(30)), read("L100%", steps(30))]).toEqual([-1, 0.5, -1]);
    expect(why("L31", steps(30))).toEqual({ code: "outside steps", typed: "L31", of: 30, unit: "" });
    expect(why("−101", HUNDRED)).toEqual({ code: "outside steps", typed: "−101", of: 100, unit: "" });
    expect(why("130% R", HUNDRED)).toEqual({ code: "outside steps", typed: "130% R", of: 100, unit: "%" });
  });

  it("takes a clock time in every style", () => {
    for (const style of STYLES) expect(read("10:30", style)).toBe(-0.3);
  });

  it.each([
    "",
    " ",
    "-",
    "−",
    "+",
    "L",
    "l",
    "R",
    "lef",
    "<",
    ">",
    ".",
    "-.",
    "L.",
    "ce",
    "<c",
    "30le",
    "30 rig",
  ])("%j is half-typed", (text) => {
    for (const style of [HUNDRED, MIDI, CLOCK]) expect(parsePan(text, style)).toEqual({ state: "open" });
  });

  it.each([
    ["L12,5", HUNDRED],
    ["12.5 right", HUNDRED],
    ["30% left", HUNDRED],
    ["centre", HUNDRED],
    ["<C>", HUNDRED],
    ["−30", MIDI],
    ["127", MIDI],
    ["10:30", CLOCK],
    ["10.30", CLOCK],
    ["07:00", CLOCK],
    ["5:00", CLOCK],
    ["L 30", CLOCK],
  ] as const)("every beginning of %j is the user's, no error", (text, style) => {
    for (let end = 0; end <= text.length; end += 1) {
      expect(parsePan(text.slice(0, end), style).state, text.slice(0, end)).not.toBe("wrong");
    }
  });

  it.each([
    "abc",
    "L30R",
    "L-30",
    "-30L",
    "<30>",
    "x30",
    "30x",
    "1e3",
    "0x10",
    "1.2.3",
    "--3",
    "30L%",
    "%",
    "C5",
    "C%",
    "C.",
    "L%",
    "L10:30",
    "10;30",
    "<script>",
  ])("%j is nonsense in every style", (text) => {
    expect(why(text, HUNDRED)).toEqual({ code: "no pan", typed: text, notation: HUNDRED });
    expect(parsePan(text, MIDI).state).toBe("wrong");
    expect(parsePan(text, CLOCK).state).toBe("wrong");
  });

  it("survives any text", () => {
    fc.assert(
      fc.property(scribble, notation, (text, style) => {
        const typed = parsePan(text, style);
        if (typed.state === "value") expect(Math.abs(typed.value)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe("MIDI, RP-036", () => {
  it("all 128 values give the published gains", () => {
    expect(RP036).toHaveLength(128);
    for (const [cc, left, right] of RP036) {
      const gains = panGains({ law: "sine", centreDb: 3, reference: "sides" }, read(String(cc), MIDI));
      expectNear(gains[0], left, 1e-12, `left at ${cc}`);
      expectNear(gains[1], right, 1e-12, `right at ${cc}`);
    }
  });

  it("mirrors n to 128 − n, not to 127 − n; 0 and 1 are both hard left", () => {
    for (let cc = 1; cc <= 127; cc += 1) {
      expect(formatPan(mirrorPan(read(String(cc), MIDI)), MIDI)).toBe(String(128 - cc));
      expect(formatPan(read(String(cc), MIDI), MIDI)).toBe(String(cc));
    }
    expect([read("0", MIDI), read("1", MIDI), read("64", MIDI)]).toEqual([-1, -1, 0]);
    expect(formatPan(mirrorPan(read("0", MIDI)), MIDI)).toBe("127");
  });

  it("counts 63 to a side, and says what it does not take", () => {
    expect([read("L63", MIDI), read("−63", MIDI), read("+63", MIDI)]).toEqual([-1, -1, 1]);
    expect(formatPan(read("L30", MIDI), MIDI)).toBe("34");
    expect(why("128", MIDI)).toEqual({ code: "outside MIDI", typed: "128" });
    expect(why("64.5", MIDI)).toEqual({ code: "not whole MIDI", typed: "64.5" });
    expect(why("−64", MIDI)).toEqual({ code: "outside steps", typed: "−64", of: 63, unit: "" });
    expect(why("x", MIDI)).toEqual({ code: "no pan", typed: "x", notation: MIDI });
  });
});

describe("clock", () => {
  it.each([
    ["7:00", -1],
    ["7", -1],
    ["07:00", -1],
    ["9:30", -0.5],
    ["10:30", -0.3],
    ["10.30", -0.3],
    ["10,30", -0.3],
    ["12", 0],
    ["12:00", 0],
    ["12:30", 0.1],
    ["1", 0.2],
    ["2:30", 0.5],
    ["5:00", 1],
    ["L30", -0.3],
    ["-30", -0.3],
  ])("%j is %d", (text, at) => expectNear(read(text, CLOCK), at, 1e-15));

  it.each(["10:", "10:3", "10.", "10.5", "0", "7:"])("%j is half-typed", (text) => {
    expect(parsePan(text, CLOCK)).toEqual({ state: "open" });
  });

  it("says what is no time, and what the knob does not reach", () => {
    expect(why("6:00", CLOCK)).toEqual({ code: "outside clock", typed: "6:00" });
    expect(why("5:01", CLOCK)).toEqual({ code: "outside clock", typed: "5:01" });
    expect(why("6:59", HUNDRED)).toEqual({ code: "outside clock", typed: "6:59" });
    for (const text of ["10:60", "13", "00", "13:00", "10:305", "123", "10:30L"]) {
      expect(why(text, CLOCK)).toEqual({ code: "no time", typed: text });
    }
    expect(why("x", CLOCK)).toEqual({ code: "no pan", typed: "x", notation: CLOCK });
  });
});

describe("printing a pan", () => {
  it("in the console's style", () => {
    expect([-0.3, 0, 0.12, -1, 1].map((p) => formatPan(p, HUNDRED))).toEqual([
      "L30",
      "C",
      "R12",
      "L100",
      "R100",
    ]);
    expect([-1, -0.01, 0, 1].map((p) => formatPan(p, MIDI))).toEqual(["1", "63", "64", "127"]);
    expect([-1, -0.3, -0.05, 0, 0.05, 0.2, 1].map((p) => formatPan(p, CLOCK))).toEqual([
      "7:00",
      "10:30",
      "11:45",
      "12:00",
      "12:15",
      "1:00",
      "5:00",
    ]);
  });

  it("rounds halves the same way on both sides", () => {
    expect([-0.5, 0.5].map((p) => formatPan(p, steps(1)))).toEqual(["L1", "R1"]);
    expect([-0.25, 0.25].map((p) => formatPan(p, steps(10)))).toEqual(["L3", "R3"]);
  });

  it("reads back within half a step", () => {
    fc.assert(
      fc.property(pan, notation, (p, style) => {
        const back = read(formatPan(p, style), style);
        expect(Math.abs(back - p)).toBeLessThanOrEqual(halfStep(style) + 1e-12);
        expect(formatPan(back, style)).toBe(formatPan(p, style));
      }),
    );
  });

  it("reads back the mirror of what it prints of the mirror", () => {
    fc.assert(
      fc.property(pan, notation, (p, style) => {
        expect(read(formatPan(mirrorPan(p), style), style)).toBe(mirrorPan(read(formatPan(p, style), style)));
      }),
    );
  });
});

describe("rounding to the console's steps", () => {
  const console = (panSteps: number) =>
    ({ ...steps(panSteps), law: "linear", centreDb: 3, reference: "sides" }) as const;

  it("gives the nearest step and the largest change of a side's level", () => {
    const rounded = roundPan(-0.64, console(5));
    expect(rounded.pan).toBe(-0.6);
    // Sides 0.82 and 0.18 become 0.8 and 0.2: the far one changes most.
    expectNear(rounded.error, 20 * Math.log10(0.2 / 0.18), 1e-12);
    expect(roundPan(0.64, console(5))).toEqual({ pan: 0.6, error: rounded.error });
  });

  it("costs nothing on a step", () => {
    for (const style of STYLES) {
      const own = { ...console(1), ...style };
      fc.assert(
        fc.property(pan, (p) => {
          const on = roundPan(p, own).pan;
          expect(roundPan(on, own)).toEqual({ pan: on, error: 0 });
          expect(Math.abs(on - p)).toBeLessThanOrEqual(halfStep(style) + 1e-12);
        }),
      );
    }
  });

  it("compares the louder side only where the other goes to silence", () => {
    const rounded = roundPan(0.96, console(10));
    expect(rounded.pan).toBe(1);
    expectNear(rounded.error, 20 * Math.log10(1 / 0.98), 1e-12);
  });
});

describe("stepping by keys", () => {
  it("moves by the console's steps, from between two to the next one, and stops at the ends", () => {
    expect(stepPan(0, HUNDRED, 1)).toBe(0.01);
    expect(stepPan(0.29, HUNDRED, 1)).toBe(0.3);
    expect(stepPan(-0.3, HUNDRED, -10)).toBe(-0.4);
    expect([stepPan(0.124, HUNDRED, 1), stepPan(0.126, HUNDRED, -1)]).toEqual([0.13, 0.12]);
    expect([stepPan(-0.124, HUNDRED, 1), stepPan(-0.126, HUNDRED, -1)]).toEqual([-0.12, -0.13]);
    expect([stepPan(0.995, HUNDRED, 5), stepPan(-1, HUNDRED, -1)]).toEqual([1, -1]);
    expect(Object.is(stepPan(0.01, HUNDRED, -1), 0)).toBe(true);
    expect(formatPan(stepPan(0, MIDI, -1), MIDI)).toBe("63");
    expect(formatPan(stepPan(0, CLOCK, 1), CLOCK)).toBe("12:15");
  });

  it("by no step at all it is the nearest step, on both sides alike", () => {
    expect([0.124, 0.126, -0.124, -0.126].map((p) => stepPan(p, HUNDRED, 0))).toEqual([
      0.12, 0.13, -0.12, -0.13,
    ]);
  });

  it("walks over every step from end to end and back", () => {
    for (const style of STYLES) {
      const count = 1 / halfStep(style);
      let at = -1;
      for (let i = 0; i < count; i += 1) at = stepPan(at, style, 1);
      expect(at).toBe(1);
      expect(stepPan(stepPan(at, style, -1), style, 1 - count)).toBe(-1);
    }
  });

  it("mirrors exactly", () => {
    fc.assert(
      fc.property(pan, fc.integer({ min: -20, max: 20 }), notation, (p, by, style) => {
        expect(stepPan(mirrorPan(p), style, -by) + stepPan(p, style, by)).toBe(0);
      }),
    );
  });
});
