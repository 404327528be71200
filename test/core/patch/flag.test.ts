import { describe, expect, it } from "vitest";
import { patchFlags } from "../../../src/core/patch/checks";
import { applyEdits, flag } from "../../../src/core/patch/flag";
import { direct, isOff, leg, setup, source, sum } from "./setups";

const KICK = source("Kick", { kind: "drum" });
const VOX = source("Vox", { kind: "voice" });
const KEYS = source("Keys", { channels: 2 });
const [DL, DR] = [leg("Drums", "left"), leg("Drums", "right")];
const KL = direct("Keys", "left");

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
    const s = setup([KICK, KEYS], [sum("Other", ["Kick"]), sum("Drums", ["Kick"])], [DL]);
    expect(applyEdits(s, [])).toBe(s);
    const after = applyEdits(s, [
      { edit: "slot", index: 3, to: DR },
      { edit: "slot", index: 1, to: KL },
      { edit: "meant", sum: "Drums", reversed: true },
    ]);
    expect(after.monitor.slots).toEqual([DL, KL, null, DR]);
    expect(after.sums.map((m) => [m.id, m.reversed])).toEqual([
      ["Other", false],
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
