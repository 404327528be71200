import { describe, expect, it } from "vitest";
import { patchFigures } from "../../../src/core/inputs/figures";
import { patchIssues } from "../../../src/core/inputs/issues";
import { sheetRows } from "../../../src/core/inputs/sheet";
import { usageOf } from "../../../src/core/inputs/usage";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

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

describe("a row of the sheet", () => {
  const swapped = (inputs: readonly (MonitorInput | null)[], more: Partial<Bus> = {}) =>
    sheetRows(patched(inputs, more))
      .map((r) => r.feed?.swapped ?? "free")
      .slice(0, inputs.length);

  it("says whether a pair lies in reverse, and whether that is meant", () => {
    expect(swapped([DL, DR, KL, KR])).toEqual(["no", "no", "no", "no"]);
    expect(swapped([DR, DL])).toEqual(["by mistake", "by mistake"]);
    expect(swapped([DR, DL], { swapped: true })).toEqual(["on purpose", "on purpose"]);
    expect(swapped([KR, KL])).toEqual(["by mistake", "by mistake"]);
    expect(swapped([null, direct("Kick")])).toEqual(["free", "no"]);
    // A left channel alone in the very first input is no pair.
    expect(swapped([KL])).toEqual(["no"]);
  });

  it("and all figures of the patch are those of its parts", () => {
    const s = patched([DR, DL, KL]);
    expect(patchFigures(s)).toEqual({ usage: usageOf(s), issues: patchIssues(s), rows: sheetRows(s) });
  });
});
