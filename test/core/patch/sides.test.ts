import { describe, expect, it } from "vitest";
import { patchFlags } from "../../../src/core/patch/checks";
import { patchFigures } from "../../../src/core/patch/figures";
import { fits } from "../../../src/core/patch/fit";
import { applyEdits, flag } from "../../../src/core/patch/flag";
import { freedBy } from "../../../src/core/patch/move";
import { sheetRows } from "../../../src/core/patch/sheet";
import {
  about,
  firstOfSide,
  type Patched,
  patchedThings,
  repeatsOf,
  sidesReversed,
} from "../../../src/core/patch/sides";
import { heardTwice, riseOfCopy } from "../../../src/core/patch/twice";
import { usageOf } from "../../../src/core/patch/usage";
import type { Setup, Slot, Sum } from "../../../src/core/setup";
import { expectNear, printed } from "../../near";
import { direct, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const VOX = source("Vox", { kind: "voice" });
const KEYS = source("Keys", { channels: 2 });
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];
const [KL, KR] = [direct("Keys", "left"), direct("Keys", "right")];
const isOff = (slot: Slot): Slot => ({ ...slot, on: false });

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

describe("the level of a thing that comes in twice", () => {
  it.each([
    // 20 lg (1 + 10^(−|difference|/20)), by hand.
    [0, 0, 6.02],
    [-6, -6, 6.02],
    [-6, 0, 3.53],
    [0, -6, 3.53],
    [3, -3, 3.53],
    [0, -20, 0.83],
  ])("at trims of %d and %d dB rises by %f dB", (first, second, rise) => {
    expectNear(riseOfCopy(first, second), rise, printed(2));
  });

  it("is reckoned ear by ear, channel by channel", () => {
    const keys = { ...KEYS, keepSides: true };
    const rise = (own: readonly Slot[]) =>
      heardTwice(setup([keys], [sum("Drums", ["Keys"])], [DL, DR, ...own]))[0]?.rise.map((ear) =>
        ear === null ? null : Number(ear.toFixed(2)),
      );
    // Both channels wide, at the sides of the pair: each ear has the same channel twice.
    expect(rise([KL, KR])).toEqual([6.02, 6.02]);
    // Crossed: other channels meet in each ear, power 2 over power 1.
    expect(rise([KR, KL])).toEqual([3.01, 3.01]);
    // One channel only comes to both ears: twice in its own, beside the other channel in the other.
    expect(rise([KL])).toEqual([6.02, 3.01]);
    // Both in one slot: (2² + 1²) / (1² + 1²) in each ear.
    expect(rise([direct("Keys")])).toEqual([3.98, 3.98]);
    // Twice by itself on top: (3² + 0) / 2² of its own slots alone.
    expect(rise([KL, KR, KL, KR])).toEqual([3.52, 3.52]);
  });

  it("is nothing for a source that is only in a sum, or a sum that is only named like a source", () => {
    expect(heardTwice(setup([KICK], [sum("Drums", ["Kick"])], [DL, DR]))).toEqual([]);
    const s = setup([source("Drums")], [sum("Drums", ["Drums"])], [DL, direct("Drums")]);
    expect(heardTwice(s)).toMatchObject([{ direct: [1], within: [0] }]);
    expect(heardTwice(setup([KICK], [sum("Drums", ["Kick"])], [DL, DR, isOff(direct("Kick"))]))).toEqual([]);
  });
});

describe("a flag", () => {
  it("leaves empty what it does not concern", () => {
    expect(flag("off", "warn", {}, "a", "b")).toEqual({
      code: "off",
      severity: "warn",
      slots: [],
      sources: [],
      sums: [],
      listeners: [],
      says: "a",
      remedy: "b",
    });
  });

  it("is mended in its order: slots, beyond the last one too, and what is meant", () => {
    const s = patched([DL]);
    expect(applyEdits(s, [])).toBe(s);
    const after = applyEdits(s, [
      { edit: "slot", index: 3, to: DR },
      { edit: "slot", index: 1, to: KL },
      { edit: "meant", sum: "Drums", reversed: true },
    ]);
    expect(after.monitor.slots).toEqual([DL, KL, null, DR]);
    expect(after.sums.map((m) => [m.id, m.reversed])).toEqual([
      ["Other", true],
      ["Drums", true],
    ]);
    expect(applyEdits(s, [{ edit: "slot", index: 1, to: null }]).monitor.slots).toEqual([DL, null]);
  });

  it("stands with the worst first, then by its slot; what has no slot last", () => {
    const s = setup(
      [KICK, VOX, source("Bass"), KEYS],
      [],
      [direct("Kick"), isOff(direct("Vox")), KL, direct("Kick", "both", { on: false })],
    );
    expect(patchFlags(s).map((f) => [f.severity, f.code, f.slots[0]])).toEqual([
      ["fault", "only one side", 2],
      ["warn", "patched twice", 0],
      ["warn", "off", 1],
      ["warn", "unfed source", undefined],
      ["note", "unfed listener", undefined],
    ]);
  });
});

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

describe("a row of the sheet", () => {
  const swapped = (slots: readonly (Slot | null)[], more: Partial<Sum> = {}) =>
    sheetRows(patched(slots, more))
      .map((r) => r.swapped)
      .slice(0, slots.length);

  it("says whether a pair lies in reverse, and whether that is meant", () => {
    expect(swapped([DL, DR, KL, KR])).toEqual(["", "", "", ""]);
    expect(swapped([DR, DL])).toEqual(["by mistake", "by mistake"]);
    expect(swapped([DR, DL], { reversed: true })).toEqual(["on purpose", "on purpose"]);
    expect(swapped([KR, KL])).toEqual(["by mistake", "by mistake"]);
    expect(swapped([null, direct("Kick")])).toEqual(["", ""]);
    // A left channel alone in the very first slot is no pair.
    expect(swapped([KL])).toEqual([""]);
  });

  it("and all figures of the patch are those of its parts", () => {
    const s = patched([DR, DL, KL]);
    expect(patchFigures(s)).toEqual({ usage: usageOf(s), flags: patchFlags(s), rows: sheetRows(s) });
  });
});
