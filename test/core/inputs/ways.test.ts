import { describe, expect, it } from "vitest";
import { waysToFree } from "../../../src/core/inputs/free";
import { freedBy } from "../../../src/core/inputs/move";
import type { Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];

describe("a way back under the count", () => {
  const says = (s: Setup) => waysToFree(s).map((f) => [f.says, f.loses[0]]);

  it("says what to do", () => {
    const drums = bus("Drums", ["Kick"]);
    const hat = channel("Hat", { kind: "drum" });
    const tom = channel("Tom", { kind: "drum" });
    expect(says(setup([KICK, hat], [drums], [DL, DR, direct("Hat")], 2)).slice(0, 2)).toEqual([
      ["Put Hat into Drums.", "Hat can no longer be mixed apart from Drums."],
      ["Fold Drums to mono.", "Drums goes to mono; nothing in it lies to a side."],
    ]);
    expect(says(setup([tom, hat], [], [null, direct("Hat"), direct("Tom")], 1))).toEqual([
      ["Sum Tom and Hat to one mono input, “Drums”.", "Tom and Hat can no longer be mixed apart."],
    ]);
    expect(says(setup([KICK], [], [direct("Kick"), direct("Kick")], 1))).toEqual([
      ["Free input 2 (Kick).", "Nothing is lost: the same still comes in."],
    ]);
    expect(says(setup([KICK], [], [null, null, direct("Kick")], 2))).toEqual([
      ["Move input 3 into free inputs.", "Nothing is lost."],
    ]);
  });

  it("takes the inputs of a new bus in their order, whatever the order of its channels", () => {
    const hat = channel("Hat", { kind: "drum" });
    const [fit] = waysToFree(setup([KICK, hat], [], [direct("Hat"), direct("Kick")], 1));
    expect(fit?.moves).toEqual([{ move: "together", channels: ["Kick", "Hat"], inputs: [0, 1] }]);
    expect(fit?.frees).toBe(1);
  });

  it("frees all its inputs, but one where something is left", () => {
    const inputs = [0, 1, 2];
    expect(freedBy({ move: "free", why: "off", of: "bus", id: "a", inputs })).toBe(3);
    expect(freedBy({ move: "fold", of: "bus", id: "a", keeps: 0, inputs })).toBe(2);
    expect(freedBy({ move: "together", channels: ["a", "b"], inputs })).toBe(2);
    expect(freedBy({ move: "into", channel: "a", bus: "b", inputs })).toBe(3);
  });
});
