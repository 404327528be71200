import { describe, expect, it } from "vitest";
import {
  capitalised,
  clause,
  feedName,
  formatChange,
  formatCount,
  formatInputs,
  formatList,
  reasonOf,
} from "../../src/text/words";
import { BUS, kit } from "../core/recommend/setups";

describe("words of a sentence", () => {
  it("things are listed with commas and an “and” before the last", () => {
    expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(formatList)).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
  });

  it("inputs are counted from 1", () => {
    expect([[2], [2, 3]].map(formatInputs)).toEqual(["input 3", "inputs 3 and 4"]);
  });

  it("one of a thing is not many, and none are", () => {
    expect([0, 1, 3].map((count) => formatCount(count, "input"))).toEqual([
      "0 inputs",
      "1 input",
      "3 inputs",
    ]);
    expect(formatCount(2, "more side", "more sides of it")).toBe("2 more sides of it");
  });

  it("a sentence within another has no stop of its own", () => {
    expect(["It broke.", "It broke", "It broke ...", "Broke!\n", "", "v1.2"].map(clause)).toEqual([
      "It broke",
      "It broke",
      "It broke",
      "Broke",
      "",
      "v1.2",
    ]);
  });

  it("an error says its reason, and one that has none says so", () => {
    expect(reasonOf(new Error("The disk is gone."))).toBe("The disk is gone");
    expect(reasonOf(new DOMException("A mutation was refused.", "OddError"))).toBe("A mutation was refused");
    expect([reasonOf(new Error("")), reasonOf("thrown"), reasonOf(undefined)]).toEqual(
      Array(3).fill("no reason given"),
    );
    expect(reasonOf(null, "the browser is silent")).toBe("the browser is silent");
  });

  it("a sentence begins with a capital letter", () => {
    expect(["the drummer", "Mara", ""].map(capitalised)).toEqual(["The drummer", "Mara", ""]);
  });

  it("a change of level has its sign and two digits; one too small to print has none", () => {
    expect([6.0206, -3, 0.001].map(formatChange)).toEqual(["+6.02 dB", "−3.00 dB", "0.00 dB"]);
  });

  it("a channel goes by its name and a bus by its own, where both have the same id too", () => {
    const setup = kit({ buses: [BUS, { ...BUS, id: "hat", name: "Beats" }] });
    expect(feedName(setup, "channel", "hat")).toBe("HAT");
    expect(feedName(setup, "bus", "hat")).toBe("Beats");
    expect(feedName(setup, "bus", "gone")).toBe("Unnamed bus");
  });
});
