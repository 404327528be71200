import { describe, expect, it } from "vitest";
import { busName, channelName, listenerName, nameOr } from "../../src/text/names";
import { kit } from "../core/recommend/setups";

describe("names in a sentence", () => {
  it("a thing goes by its name; without one, or when it is not there any more, it is unnamed", () => {
    const setup = kit({ channels: kit().channels.map((s) => (s.id === "tom" ? { ...s, name: "" } : s)) });
    expect(["hat", "tom", "gone"].map((id) => channelName(setup, id))).toEqual([
      "HAT",
      "Unnamed channel",
      "Unnamed channel",
    ]);
    expect([{ name: "Drums" }, { name: "" }, undefined].map(busName)).toEqual([
      "Drums",
      "Unnamed bus",
      "Unnamed bus",
    ]);
    expect(nameOr(undefined, "piece")).toBe("Unnamed piece");
  });

  it("a listener goes by what stands before the first comma, without the spaces round it", () => {
    expect(["Mara, drums", " Mara , drums, left", "Mara"].map((name) => listenerName({ name }))).toEqual([
      "Mara",
      "Mara",
      "Mara",
    ]);
  });

  it("a word for the part that somebody plays is no name", () => {
    expect(["Drummer", "Audience, standing", "Bandit"].map((name) => listenerName({ name }))).toEqual([
      "the drummer",
      "the audience",
      "Bandit",
    ]);
  });

  it("a listener without a name, or without one before the comma, or who is gone, is an unnamed listener", () => {
    for (const somebody of [{ name: "" }, { name: "  " }, { name: ", drums" }, undefined])
      expect(listenerName(somebody)).toBe("an unnamed listener");
  });
});
