import { describe, expect, it } from "vitest";
import { changeSaid, counted, listed, sentence, slotsSaid, thingCalled } from "../../src/core/words";
import { kit, SUM } from "./repair/setups";

describe("words of a sentence", () => {
  it("things are listed with commas and an “and” before the last", () => {
    expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(listed)).toEqual(["", "a", "a and b", "a, b and c"]);
  });

  it("slots are counted from 1", () => {
    expect([[2], [2, 3]].map(slotsSaid)).toEqual(["slot 3", "slots 3 and 4"]);
  });

  it("one of a thing is not many, and none are", () => {
    expect([0, 1, 3].map((count) => counted(count, "slot"))).toEqual(["0 slots", "1 slot", "3 slots"]);
    expect(counted(2, "more leg", "more legs of it")).toBe("2 more legs of it");
  });

  it("a sentence begins with a capital letter", () => {
    expect(["the drummer", "Mara", ""].map(sentence)).toEqual(["The drummer", "Mara", ""]);
  });

  it("a change of level has its sign and two digits; one too small to print has none", () => {
    expect([6.0206, -3, 0.001].map(changeSaid)).toEqual(["+6.02 dB", "−3.00 dB", "0.00 dB"]);
  });

  it("a source goes by its name and a sum by its own, where both have the same id too", () => {
    const setup = kit({ sums: [SUM, { ...SUM, id: "hat", name: "Beats" }] });
    expect(thingCalled(setup, "source", "hat")).toBe("HAT");
    expect(thingCalled(setup, "sum", "hat")).toBe("Beats");
    expect(thingCalled(setup, "sum", "gone")).toBe("Unnamed sum");
  });
});
