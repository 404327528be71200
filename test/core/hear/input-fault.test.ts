import { describe, expect, it } from "vitest";
import { inputFault } from "../../../src/core/hear/input-fault";
import type { PairKind } from "../../../src/core/hear/pair";

const reading = (kind: PairKind, overload = false) => ({ kind, overload });

describe("what is wrong with an input", () => {
  it("is nothing with two sides that differ, or one that carries nothing", () => {
    for (const kind of ["pair", "left-only", "right-only"] as const)
      expect(inputFault(reading(kind), 2, false)).toBeNull();
  });

  it("is the gravest: no second channel, muted by the system, silent, identical, clipped", () => {
    expect(inputFault(reading("silent", true), 1, true)).toBe("one-channel");
    expect(inputFault(reading("silent", true), 2, true)).toBe("muted");
    expect(inputFault(reading("silent", true), 2, false)).toBe("silent");
    expect(inputFault(reading("identical", true), 2, false)).toBe("identical");
    expect(inputFault(reading("pair", true), 2, false)).toBe("overload");
  });
});
