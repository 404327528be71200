import { describe, expect, it } from "vitest";
import {
  firstOfSide,
  inputsAbout,
  type PatchedThing,
  patchedThings,
  repeatsOf,
  sidesSwapped,
} from "../../../src/core/inputs/patched";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, isOff, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const KEYS = channel("Keys", { lines: 2 });
const [DL, DR] = [side("Drums", "left"), side("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];

const patched = (inputs: readonly (MonitorInput | null)[], more: Partial<Bus> = {}): Setup =>
  setup(
    [KICK, KEYS],
    [bus("Other", ["Kick"], { folded: true, swapped: true }), bus("Drums", ["Kick"], more)],
    inputs,
  );
const thingOf = (s: Setup, id: string): PatchedThing =>
  patchedThings(s).find((t) => t.id === id) as PatchedThing;

describe("the inputs of a thing", () => {
  it("are about a channel or about a bus", () => {
    const s = patched([DL, KL, DR, KR]);
    expect(inputsAbout(thingOf(s, "Keys"))).toEqual({ inputs: [1, 3], channels: ["Keys"], buses: [] });
    expect(inputsAbout(thingOf(s, "Drums"), [2])).toEqual({ inputs: [2], channels: [], buses: ["Drums"] });
  });

  it("bring a side by the first that is on, else by the first", () => {
    const s = patched([isOff(DL), DL, DL, isOff(DR), isOff(DR)]);
    const side = (of: "left" | "right" | "both") => firstOfSide(s, thingOf(s, "Drums"), of);
    expect([side("left"), side("right"), side("both")]).toEqual([1, 3, -1]);
  });

  it("lie in reverse for a bus as it is patched or meant, for two channels as they lie", () => {
    const reversed = (inputs: readonly MonitorInput[], id: string, more: Partial<Bus> = {}) => {
      const s = patched(inputs, more);
      return sidesSwapped(s, thingOf(s, id));
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

describe("inputs that bring nothing new", () => {
  const repeats = (inputs: readonly MonitorInput[], id: string, more: Partial<Bus> = {}) => {
    const s = patched(inputs, more);
    return repeatsOf(s, thingOf(s, id)).map((r) => [r.index, r.of]);
  };

  it("repeat the side that is on, in the order of the inputs", () => {
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

  it("are the other side of a folded sum, but both channels of a channel", () => {
    expect(repeats([DL, DR], "Drums", { folded: true })).toEqual([[1, 0]]);
    expect(repeats([KL, KR], "Keys")).toEqual([]);
    const s = setup(
      [channel("Drums", { lines: 2 })],
      [bus("Drums", [], { folded: true })],
      [direct("Drums", "left"), direct("Drums", "right")],
    );
    expect(repeatsOf(s, thingOf(s, "Drums"))).toEqual([]);
  });

  it("are both channels in one input where each has one already, as long as these are heard", () => {
    expect(repeats([KL, KR, direct("Keys")], "Keys")).toEqual([[2, 0]]);
    expect(repeats([isOff(KL), KR, direct("Keys")], "Keys")).toEqual([]);
    expect(repeats([isOff(KL), isOff(KR), isOff(direct("Keys"))], "Keys")).toEqual([[2, 0]]);
    expect(repeats([KL, direct("Keys")], "Keys")).toEqual([]);
    expect(repeats([direct("Kick"), direct("Kick")], "Kick")).toEqual([[1, 0]]);
  });
});
