import { describe, expect, it } from "vitest";
import { fits } from "../../../src/core/patch/fit";
import { freedBy } from "../../../src/core/patch/move";
import type { Setup } from "../../../src/core/setup";
import { direct, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];

describe("a way back under the count", () => {
  const says = (s: Setup) => fits(s).map((f) => [f.says, f.loses[0]]);

  it("says what to do", () => {
    const drums = sum("Drums", ["Kick"]);
    const hat = source("Hat", { kind: "drum" });
    const tom = source("Tom", { kind: "drum" });
    expect(says(setup([KICK, hat], [drums], [DL, DR, direct("Hat")], 2)).slice(0, 2)).toEqual([
      ["Put Hat into Drums.", "Hat can no longer be mixed apart from Drums."],
      ["Fold Drums to mono.", "Drums goes to mono; nothing in it lies to a side."],
    ]);
    expect(says(setup([tom, hat], [], [null, direct("Hat"), direct("Tom")], 1))).toEqual([
      ["Sum Tom and Hat to one mono slot, “Drums”.", "Tom and Hat can no longer be mixed apart."],
    ]);
    expect(says(setup([KICK], [], [direct("Kick"), direct("Kick")], 1))).toEqual([
      ["Free slot 2 (Kick).", "Nothing is lost: the same still comes in."],
    ]);
    expect(says(setup([KICK], [], [null, null, direct("Kick")], 2))).toEqual([
      ["Move slot 3 into free slots.", "Nothing is lost."],
    ]);
  });

  it("takes the slots of a new sum in their order, whatever the order of its sources", () => {
    const hat = source("Hat", { kind: "drum" });
    const [fit] = fits(setup([KICK, hat], [], [direct("Hat"), direct("Kick")], 1));
    expect(fit?.moves).toEqual([{ move: "together", sources: ["Kick", "Hat"], slots: [0, 1] }]);
    expect(fit?.frees).toBe(1);
  });

  it("frees all its slots, but one where something is left", () => {
    const slots = [0, 1, 2];
    expect(freedBy({ move: "free", why: "off", of: "sum", id: "a", slots })).toBe(3);
    expect(freedBy({ move: "fold", of: "sum", id: "a", keeps: 0, slots })).toBe(2);
    expect(freedBy({ move: "together", sources: ["a", "b"], slots })).toBe(2);
    expect(freedBy({ move: "into", source: "a", sum: "b", slots })).toBe(3);
  });
});
