import { describe, expect, it } from "vitest";
import {
  about,
  firstOfSide,
  type Patched,
  patchedThings,
  repeatsOf,
  sidesReversed,
} from "../../../src/core/patch/sides";
import type { Setup, Slot, Sum } from "../../../src/core/setup";
import { direct, isOff, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const KEYS = source("Keys", { channels: 2 });
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];

const patched = (slots: readonly (Slot | null)[], more: Partial<Sum> = {}): Setup =>
  setup(
    [KICK, KEYS],
    [sum("Other", ["Kick"], { folded: true, reversed: true }), sum("Drums", ["Kick"], more)],
    slots,
  );
const thingOf = (s: Setup, id: string): Patched => patchedThings(s).find((t) => t.id === id) as Patched;

describe("the slots of a thing", () => {
  it("are about a source or about a sum", () => {
    const s = patched([DL, KL, DR, KR]);
    expect(about(thingOf(s, "Keys"))).toEqual({ slots: [1, 3], sources: ["Keys"], sums: [] });
    expect(about(thingOf(s, "Drums"), [2])).toEqual({ slots: [2], sources: [], sums: ["Drums"] });
  });

  it("bring a side by the first that is on, else by the first", () => {
    const s = patched([isOff(DL), DL, DL, isOff(DR), isOff(DR)]);
    const side = (of: "left" | "right" | "both") => firstOfSide(s, thingOf(s, "Drums"), of);
    expect([side("left"), side("right"), side("both")]).toEqual([1, 3, -1]);
  });

  it("lie in reverse for a sum as it is patched or meant, for two channels as they lie", () => {
    const reversed = (slots: readonly Slot[], id: string, more: Partial<Sum> = {}) => {
      const s = patched(slots, more);
      return sidesReversed(s, thingOf(s, id));
    };
    expect(reversed([DL, DR], "Drums")).toBe(false);
    expect(reversed([DR, DL], "Drums")).toBe(true);
    expect(reversed([DR, DL], "Drums", { stereo: false })).toBe(false);
    expect(reversed([KL, KR], "Keys")).toBe(false);
    expect(reversed([KR, KL], "Keys")).toBe(true);
    expect(reversed([KR, direct("Kick"), KL], "Keys")).toBe(false);
    expect(reversed([direct("Keys")], "Keys")).toBe(false);
    expect(reversed([KR], "Keys")).toBe(false);
    expect(reversed([KL], "Keys")).toBe(false);
  });
});

describe("slots that bring nothing new", () => {
  const repeats = (slots: readonly Slot[], id: string, more: Partial<Sum> = {}) => {
    const s = patched(slots, more);
    return repeatsOf(s, thingOf(s, id)).map((r) => [r.index, r.of]);
  };

  it("repeat the side that is on, in the order of the slots", () => {
    expect(repeats([DL, DL, DR, DL], "Drums")).toEqual([
      [1, 0],
      [3, 0],
    ]);
    expect(repeats([isOff(DL), isOff(DL), DL], "Drums")).toEqual([
      [0, 2],
      [1, 2],
    ]);
    // One that is off lies between two that are on.
    expect(repeats([DL, isOff(DL), DL], "Drums")).toEqual([
      [1, 0],
      [2, 0],
    ]);
    expect(repeats([DL, DR], "Drums")).toEqual([]);
  });

  it("are the other leg of a folded sum, but both channels of a source", () => {
    expect(repeats([DL, DR], "Drums", { folded: true })).toEqual([[1, 0]]);
    expect(repeats([KL, KR], "Keys")).toEqual([]);
    const s = setup(
      [source("Drums", { channels: 2 })],
      [sum("Drums", [], { folded: true })],
      [direct("Drums", "left"), direct("Drums", "right")],
    );
    expect(repeatsOf(s, thingOf(s, "Drums"))).toEqual([]);
  });

  it("are both channels in one slot where each has one already, as long as these are heard", () => {
    expect(repeats([KL, KR, direct("Keys")], "Keys")).toEqual([[2, 0]]);
    expect(repeats([isOff(KL), KR, direct("Keys")], "Keys")).toEqual([]);
    expect(repeats([isOff(KL), isOff(KR), isOff(direct("Keys"))], "Keys")).toEqual([[2, 0]]);
    expect(repeats([KL, direct("Keys")], "Keys")).toEqual([]);
    expect(repeats([direct("Kick"), direct("Kick")], "Kick")).toEqual([[1, 0]]);
  });
});
