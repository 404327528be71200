import { describe, expect, it } from "vitest";
import { patchFlags } from "../../../src/core/patch/checks";
import { patchFigures } from "../../../src/core/patch/figures";
import { sheetRows } from "../../../src/core/patch/sheet";
import { usageOf } from "../../../src/core/patch/usage";
import type { Setup, Slot, Sum } from "../../../src/core/setup";
import { direct, leg, setup, source, sum } from "./setups";

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

  it("says where in the channel a source is taken; a leg has no channel", () => {
    const taps = sheetRows(patched([DL, direct("Kick", "both", { tap: "before-eq" })])).map((r) => r.tap);
    expect(taps.slice(0, 2)).toEqual(["", "Before EQ"]);
  });

  it("and all figures of the patch are those of its parts", () => {
    const s = patched([DR, DL, KL]);
    expect(patchFigures(s)).toEqual({ usage: usageOf(s), flags: patchFlags(s), rows: sheetRows(s) });
  });
});
