import { describe, expect, it } from "vitest";
import { called, nameOf, sourceCalled, sumCalled } from "../../src/core/called";
import { kit } from "./repair/setups";

describe("names in a sentence", () => {
  it("a thing goes by its name; without one, or when it is not there any more, it is unnamed", () => {
    const setup = kit({ sources: kit().sources.map((s) => (s.id === "tom" ? { ...s, name: "" } : s)) });
    expect(["hat", "tom", "gone"].map((id) => sourceCalled(setup, id))).toEqual([
      "HAT",
      "Unnamed source",
      "Unnamed source",
    ]);
    expect([{ name: "Drums" }, { name: "" }, undefined].map(sumCalled)).toEqual([
      "Drums",
      "Unnamed sum",
      "Unnamed sum",
    ]);
    expect(nameOf(undefined, "piece")).toBe("Unnamed piece");
  });

  it("a listener goes by what stands before the first comma, without the spaces round it", () => {
    expect(["Mara, drums", " Mara , drums, left", "Mara"].map((name) => called({ name }))).toEqual([
      "Mara",
      "Mara",
      "Mara",
    ]);
  });

  it("a word for the part that somebody plays is no name", () => {
    expect(["Drummer", "Audience, standing", "Bandit"].map((name) => called({ name }))).toEqual([
      "the drummer",
      "the audience",
      "Bandit",
    ]);
  });

  it("a listener without a name, or without one before the comma, or who is gone, is an unnamed listener", () => {
    for (const somebody of [{ name: "" }, { name: "  " }, { name: ", drums" }, undefined])
      expect(called(somebody)).toBe("an unnamed listener");
  });
});
