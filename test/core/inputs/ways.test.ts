import { describe, expect, it } from "vitest";
import { waysToFree } from "../../../src/core/inputs/free";
import { freedBy } from "../../../src/core/inputs/move";
import type { Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];

describe("a way to free inputs", () => {
  const movesOf = (s: Setup) => waysToFree(s).map((way) => way.moves);

  it("is a list of moves, none where what lies beyond only has to move up", () => {
    const drums = bus("Drums", ["Kick"]);
    const hat = channel("Hat", { kind: "drum" });
    const tom = channel("Tom", { kind: "drum" });
    expect(movesOf(setup([KICK, hat], [drums], [DL, DR, direct("Hat")], 2)).slice(0, 2)).toEqual([
      [{ move: "into", channel: "Hat", bus: "Drums", inputs: [2] }],
      [{ move: "fold", of: "bus", id: "Drums", keeps: 0, inputs: [0, 1] }],
    ]);
    expect(movesOf(setup([tom, hat], [], [null, direct("Hat"), direct("Tom")], 1))).toEqual([
      [{ move: "together", channels: ["Tom", "Hat"], inputs: [1, 2] }],
    ]);
    expect(movesOf(setup([KICK], [], [direct("Kick"), direct("Kick")], 1))).toEqual([
      [{ move: "free", why: "copy", of: "channel", id: "Kick", inputs: [1] }],
    ]);
    expect(movesOf(setup([KICK], [], [null, null, direct("Kick")], 2))).toEqual([[]]);
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
