import { describe, expect, it } from "vitest";
import { excerpt, isolated, quoted } from "../../../src/core/lib/direction";
import { listenerName, nameOr } from "../../../src/text/names";

// Unicode Standard Annex 9: embeddings and overrides end with PDF, isolates with PDI.
describe("a name that turns the direction of writing", () => {
  it.each([
    ["Floor tom", "Floor tom"],
    ["", ""],
    ["\u05D4\u05D0\u05D8", "\u05D4\u05D0\u05D8"],
    ["\u202Emot", "\u202Emot\u202C"],
    ["\u202Emot\u202C", "\u202Emot\u202C"],
    ["\u202A\u202B\u202Dx", "\u202A\u202B\u202Dx\u202C\u202C\u202C"],
    ["\u2066a\u2067b\u2068c", "\u2066a\u2067b\u2068c\u2069\u2069\u2069"],
    ["\u2066a\u2069", "\u2066a\u2069"],
    ["\u202E\u2067x", "\u202E\u2067x\u2069\u202C"],
    ["\u202Cx\u2069", "\u202Cx\u2069"],
  ])("%j is turned back at its end", (name, says) => {
    expect(isolated(name)).toBe(says);
  });

  it("is turned back wherever it stands in a sentence", () => {
    expect(nameOr({ name: "\u202Emot" }, "channel")).toBe("\u202Emot\u202C");
    expect(listenerName({ name: "\u202Earam, drums" })).toBe("\u202Earam\u202C");
    expect(nameOr({ name: "" }, "channel")).toBe("Unnamed channel");
    expect(quoted("\u202Emot.wav")).toBe("“\u202Emot.wav\u202C”");
  });

  it("is turned back where it is cut off", () => {
    const name = `\u202E${"m".repeat(30)}\u202C`;
    expect(excerpt(name)).toBe(`\u202E${"m".repeat(23)}…\u202C`);
  });
});

describe("the beginning of a text", () => {
  it("is all of a short one, blanks too, and whole letters of a longer one", () => {
    expect(excerpt(" hat ")).toBe(" hat ");
    expect(excerpt("🥁".repeat(24))).toBe("🥁".repeat(24));
    expect(excerpt("🥁".repeat(25))).toBe(`${"🥁".repeat(24)}…`);
  });
});
